"""The plans of a comparison: each different request stored once, waited for, read into rows."""

import hashlib
import json
import logging
import time
from dataclasses import dataclass, replace
from typing import Any

from starlette.concurrency import run_in_threadpool

from api_schema.choice import ChoiceRequest
from api_schema.comparison_answer import ComparisonAnswer, ComparisonRowAnswer
from api_schema.figures_answer import PlanFiguresAnswer
from service.errors import RequestFaults, ServiceProblem
from service.http.strict_json import read_json_object
from service.jobs.desk_job import ORDER, Order, read_order
from service.reports.choice import beaten_variants, chosen_variant, known_figures
from service.reports.comparisons import VariantPlan, comparison_rows
from service.reports.figures import figures_of_outcome
from service.routes.asked_webhook import asked_webhook, with_webhook_faults
from service.routes.library_use import find_in, uses_of
from service.routes.near_plan import with_named_plans
from service.routes.plan_documents import find_plan, is_final, moment
from service.routes.waiting import after_wait
from service.storage.comparisons import StoredComparison, StoredVariant
from service.storage.idempotency import RequestKey
from service.storage.plans import PlanSummary, StoredPlan
from service.translate.read.comparisons import ReadVariant, read_comparison
from service.translate.read.edits.edited_request import request_to_compare
from service.wiring import Wiring
from service.written_document import WrittenDocument, document_digest, written

_WAITING = ("queued", "running")

logger = logging.getLogger(__name__)


@dataclass(frozen=True, slots=True)
class _Once:
    """The key that a comparison came with, and the digest that tells it from every other."""

    key: RequestKey
    digest: str

    def of_base(self) -> RequestKey:
        """The key of the base's plan, which is the one that was sent."""
        return replace(self.key, request_digest=self.digest)

    def of_variant(self, digest: str) -> RequestKey:
        """The key of a variant's plan, by its digest, so that a repetition finds it again."""
        words = f"{self.key.key} {self.digest} {digest}"
        return RequestKey(hashlib.sha256(words.encode()).hexdigest(), request_digest=self.digest)


def accept_comparison(
    wiring: Wiring, body: bytes, key: RequestKey | None = None
) -> StoredComparison:
    """Store each different request as a plan, and the comparison that names them.

    The plan of the base keeps the `key`, and those of variants have keys made of it. So a
    comparison that comes again has its plans, and is the one that has the plan of the base.
    """

    # Requests are only put together here. A desk reads each, with the limits of one request.
    def read(request: dict[str, Any]) -> Order:
        try:
            order = read_order(wiring.desks.ask(ORDER + json.dumps(request).encode()))
        except RequestFaults as faulty:
            every = with_webhook_faults(wiring.settings, request, faulty.faults)
            raise RequestFaults(every, left_out=faulty.left_out) from None
        asked_webhook(wiring.settings, request)
        return order

    document: dict[str, Any] = read_json_object(body)
    variants = read_comparison(document, read, lambda *name: find_in(wiring, *name))
    plans: dict[str, PlanSummary] = {}
    once = None if key is None else _Once(key, document_digest(document))
    rows = tuple(_store(wiring, variant, plans, once) for variant in variants)
    wiring.engine.wake()
    base = next(iter(plans.values()))
    return wiring.comparisons.add(
        tenant_id=wiring.tenant_id,
        reference=base.reference,
        created_at_ms=base.created_at_ms,
        rows=rows,
        choose=document.get("choose"),
        once=once is not None,
    )


def _store(
    wiring: Wiring,
    variant: ReadVariant[Order],
    plans: dict[str, PlanSummary],
    once: _Once | None,
) -> StoredVariant:
    """The row of a variant; its plan is an earlier one if the request is equal to it."""
    plan_id = None
    if variant.document is not None and variant.order is not None:
        try:
            document = with_named_plans(wiring, variant.document)
        except RequestFaults as error:
            if not plans:
                raise
            return StoredVariant(variant.name, variant.edits, None, error.faults)
        stored = written(document)
        digest = stored.digest
        if digest not in plans:
            try:
                plans[digest] = _store_plan(
                    wiring, variant, variant.order, stored, once, is_base=not plans
                )
            except ServiceProblem as problem:
                # Without the base there is nothing to compare; later ones are rows that say so.
                if problem.code != "queue_full" or not plans:
                    raise
        plan_id = plans[digest].plan_id if digest in plans else None
    return StoredVariant(variant.name, variant.edits, plan_id, variant.faults)


def _store_plan(
    wiring: Wiring,
    variant: ReadVariant[Order],
    order: Order,
    document: WrittenDocument,
    once: _Once | None,
    *,
    is_base: bool,
) -> PlanSummary:
    key = None
    if once is not None:
        key = once.of_base() if is_base else once.of_variant(document.digest)
    return wiring.store.accept(
        tenant_id=wiring.tenant_id,
        reference=order.reference,
        solve_seconds=wiring.settings.granted_solve_seconds(order.solve_seconds),
        document=document,
        webhook_url=asked_webhook(wiring.settings, document),
        uses=uses_of(variant.taken),
        idempotency_key=key,
    )


async def wait_for(wiring: Wiring, stored: StoredComparison, seconds: float) -> None:
    """Wait until every plan of a comparison is final, for so long at most [s]."""
    until = time.monotonic() + seconds
    for plan_id in dict.fromkeys(row.plan_id for row in stored.rows if row.plan_id):
        try:
            await after_wait(wiring, plan_id, until - time.monotonic())
        except ServiceProblem as problem:
            # What is deleted meanwhile is nothing to wait for; its row says so.
            if problem.code != "not_found":
                raise
        if stored.choose is not None and stored.choose.get("cancel_beaten"):
            await run_in_threadpool(comparison_answer, wiring, stored)


def comparison_answer(wiring: Wiring, stored: StoredComparison) -> ComparisonAnswer:
    """A comparison with what is known of its plans now, and beaten ones cancelled if so asked.

    A caller whose key may only read changes nothing by it.
    """
    variants = [_variant(wiring, row) for row in stored.rows]
    rows = comparison_rows(variants)
    asked = None if stored.choose is None else ChoiceRequest.model_validate(stored.choose)
    known = {one.name: known_figures(one.request) for one in variants} if asked else {}
    ending = asked is not None and asked.cancel_beaten and wiring.may_plan
    beaten = beaten_variants(rows, asked, known) if asked and ending else []
    if _cancel(wiring, rows, beaten):
        rows = comparison_rows([_variant(wiring, row) for row in stored.rows])
    return ComparisonAnswer(
        comparison_id=stored.comparison_id,
        reference=stored.reference,
        created_at=moment(stored.created_at_ms),
        done=all(row.state not in _WAITING for row in rows),
        chosen=None if asked is None else chosen_variant(rows, asked, known),
        rows=rows,
    )


def _cancel(
    wiring: Wiring, rows: list[ComparisonRowAnswer], beaten: list[ComparisonRowAnswer]
) -> bool:
    """Cancel the plans of beaten variants that no other row has; whether there were any."""
    kept = {row.plan_id for row in rows if row not in beaten}
    gone = [row.plan_id for row in beaten if row.plan_id and row.plan_id not in kept]
    for plan_id in gone:
        if wiring.wishes.cancel(tenant_id=wiring.tenant_id, plan_id=plan_id) and wiring.key_id:
            logger.info(
                "audit: key %s of tenant %s: %s cancelled, a beaten variant",
                wiring.key_id,
                wiring.tenant_id,
                plan_id,
            )
    return bool(gone)


def _variant(wiring: Wiring, row: StoredVariant) -> VariantPlan:
    """A row with what is stored of its plan."""
    if row.plan_id is None:
        return VariantPlan(row.name, row.edits, row.faults, None, None, None, None)
    deleted = VariantPlan(row.name, row.edits, row.faults, None, "deleted", None, None)
    plan = _plan_of(wiring, row.plan_id)
    if plan is None:
        return deleted
    request: dict[str, Any] = json.loads(plan.request_document)
    compared = request_to_compare(request)
    figures = None
    if is_final(plan):
        try:
            figures = _figures(wiring, row.plan_id, compared)
        except ServiceProblem as problem:
            if problem.code != "not_found":
                raise
            return deleted
    return VariantPlan(
        name=row.name,
        edits=row.edits,
        faults=row.faults,
        plan_id=row.plan_id,
        state=plan.summary.state,
        request=compared,
        figures=figures,
    )


def _plan_of(wiring: Wiring, plan_id: str) -> StoredPlan | None:
    """The plan of a row without its outcome; None where its caller has deleted it."""
    return wiring.store.read(tenant_id=wiring.tenant_id, plan_id=plan_id, with_outcome=False)


def _figures(wiring: Wiring, plan_id: str, request: dict[str, Any]) -> PlanFiguresAnswer | None:
    """The figures of a final plan; None where it was cancelled."""

    def read() -> PlanFiguresAnswer | None:
        document = find_plan(wiring, plan_id).outcome_document
        return None if document is None else figures_of_outcome(json.loads(document), request)

    return wiring.figures.of(plan_id, read)
