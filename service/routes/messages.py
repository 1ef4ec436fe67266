"""Messages of at most 140 characters: a state that was counted comes in, an answer goes out."""

import hashlib
import json
from dataclasses import replace
from typing import Annotated, Any

from fastapi import APIRouter, Header, Request
from pydantic import ValidationError
from starlette.concurrency import run_in_threadpool
from starlette.responses import Response

from api_schema.replan import ReplanRequest
from api_schema.replan_answer import (
    MessageAnswer,
    MessageKeyAnswer,
    MessageRequest,
    NumberedAnswer,
)
from service.errors import Fault, RequestFaults, ServiceProblem
from service.http.answers import EVERY_BODY, JSON_ONLY, json_answer, problems, takes_json
from service.http.request_body import SMALL_BODY_BYTES
from service.http.strict_json import read_json_object
from service.messages.numbers import Numbers
from service.messages.states import answer_message, in_words, state_of
from service.messages.text import Message, MessageInDoubtError, read_message, write_message
from service.routes.once import begun_plan
from service.routes.plan_documents import find_plan, find_request, is_final
from service.routes.plans import PlanId
from service.routes.replanning import accept_replan, plan_of_code, replan_documents
from service.routes.waiting import after_wait, granted_wait, step_out, work_body
from service.storage.idempotency import RequestKey
from service.storage.plan_ids import code_of
from service.storage.plans import PlanSummary
from service.translate.read.requests import read_plan_request
from service.translate.read.wire_faults import wire_faults
from service.wiring import Wired, Wiring
from solver.problem import Problem

router = APIRouter(tags=["messages"], dependencies=[JSON_ONLY])

_STANDARD_WAIT_SECONDS = 25
_WITHOUT_ANSWER = ("failed", "cancelled")
"""States of a re-plan that says nothing to whoever sent the message."""


@router.post(
    "/v1/messages",
    operation_id="answer_message",
    summary="Answer a message",
    description=(
        "Takes a state in the code of `GET /docs/messages`, finds the plan that it names, plans "
        "the rest and answers in the same code. A message that cannot be read in exactly one way "
        "is refused, and the fault names the groups that are in doubt. The service never guesses. "
        "It waits 25 seconds for the plan, or as long as `Prefer: wait=N` says. If the plan is not "
        "ready by then, read `GET /v1/plans/{plan_id}/message` later. A message that comes again "
        "within 24 hours gets the answer that it had, and begins nothing. If a newer plan has "
        "taken the place of that answer, or an older one was released since, it is refused. If the "
        "re-plan failed or was cancelled, one other is begun."
    ),
    response_model=MessageAnswer,
    responses=problems(*EVERY_BODY, "not_found", "queue_full", "shutting_down"),
    openapi_extra=takes_json(
        "MessageRequest", {"a_storm": {"text": "K7Q4MR D06EA C03* N1014R F0954 W03Y XCD"}}
    ),
)
async def answer_one_message(
    request: Request,
    wiring: Wired,
    _prefer: Annotated[
        str | None, Header(alias="Prefer", description="`wait=N`: seconds to wait for the answer.")
    ] = None,
) -> Response:
    """Read a message, plan the rest, and write the answer."""
    body = await work_body(request, wiring, most_bytes=SMALL_BODY_BYTES)
    asked = _read_body(read_json_object(body))
    message = _in_code(asked.text)
    accepted, problem = await run_in_threadpool(_begun, wiring, message)
    del body
    step_out(request)
    seconds = granted_wait(request, wiring)
    await after_wait(
        wiring, accepted.plan_id, _STANDARD_WAIT_SECONDS if seconds is None else seconds
    )
    return await run_in_threadpool(_answer, wiring, accepted.plan_id, problem)


@router.get(
    "/v1/plans/{plan_id}/message",
    operation_id="read_plan_message",
    summary="Read a re-plan as a message",
    description="The answer of a plan that was made on the way, in the code of `GET "
    "/docs/messages`.",
    response_model=MessageAnswer,
    responses=problems("not_found", "invalid_request"),
)
def read_plan_message(wiring: Wired, plan_id: PlanId) -> Response:
    """One re-plan as a message."""
    find_plan(wiring, plan_id)
    problem = read_plan_request(find_request(wiring, plan_id)).problem
    return _answer(wiring, plan_id, problem)


@router.get(
    "/v1/plans/{plan_id}/message-key",
    operation_id="read_message_key",
    summary="Read the numbers that messages use",
    description="Places, people, sleds, cook groups and night sets by number, for one plan.",
    response_model=MessageKeyAnswer,
    responses=problems("not_found"),
)
def read_message_key(wiring: Wired, plan_id: PlanId) -> Response:
    """The numbers of one plan."""
    find_plan(wiring, plan_id)
    numbers = Numbers(read_plan_request(find_request(wiring, plan_id)).problem)
    return json_answer(
        MessageKeyAnswer(
            code=code_of(plan_id),
            places=_numbered(numbers.places),
            people=_numbered(numbers.people),
            sleds=_numbered(numbers.sleds),
            cook_groups=_numbered(numbers.cook_groups),
            night_sets=[
                NumberedAnswer(number=number, names=unit_id)
                for group in numbers.cook_groups
                for number, unit_id in enumerate(numbers.night_sets(group), start=1)
            ],
        )
    )


def _numbered(names: tuple[str, ...]) -> list[NumberedAnswer]:
    return [NumberedAnswer(number=n, names=name) for n, name in enumerate(names, start=1)]


def _read_body(document: dict[str, object]) -> MessageRequest:
    try:
        return MessageRequest.model_validate(document)
    except ValidationError as error:
        raise RequestFaults(wire_faults(error, MessageRequest)) from None


def _in_code(text: str) -> Message:
    """The message in the code; RequestFaults with each group that is in doubt."""
    try:
        message = read_message(text)
    except MessageInDoubtError as error:
        raise RequestFaults(
            tuple(
                Fault("/text", "in_doubt", f"Group {d.number} ({d.text}): {d.why}. Ask again.")
                for d in error.doubts
            )
        ) from None
    if message.is_answer:
        words = "This is an answer (it begins with A). A state begins with K."
        raise RequestFaults((Fault("/text", "wrong_kind", words),))
    return message


def _begun(wiring: Wiring, message: Message) -> tuple[PlanSummary, Problem]:
    """The re-plan for a message, and the problem whose numbers its answer uses.

    A message may be delivered twice, or sent again because its answer was lost. It then has the
    re-plan that it began, or is refused where a newer plan has taken its place. Only where that
    re-plan failed or was cancelled another one is begun, and copies that come together share it.
    """
    key = _key_of(message)
    known = _known(wiring, key)
    try:
        return _known_or_planned(wiring, message, key, known)
    except ServiceProblem:
        # A copy that came a moment before may have begun its re-plan, and that may hold by now.
        latest = _known(wiring, key)
        if latest is None or (known is not None and latest.plan_id == known.plan_id):
            raise
        return _known_or_planned(wiring, message, key, latest)


def _known_or_planned(
    wiring: Wiring, message: Message, key: RequestKey, known: PlanSummary | None
) -> tuple[PlanSummary, Problem]:
    if known is not None:
        if known.state not in _WITHOUT_ANSWER:
            _require_holding(wiring, known)
            return known, read_plan_request(find_request(wiring, known.plan_id)).problem
        key = replace(key, instead_of=known.plan_id)
    plan_id, state, problem = _state_of(wiring, message)
    return accept_replan(wiring, plan_id, json.dumps(state).encode(), key), problem


def _known(wiring: Wiring, key: RequestKey) -> PlanSummary | None:
    """The re-plan that a message began within the time that keys are kept."""
    begun = wiring.begun.plan_of(
        tenant_id=wiring.tenant_id, key=key.key, sent_digest=key.sent_digest or ""
    )
    return None if begun is None else begun_plan(wiring, begun)


def _key_of(message: Message) -> RequestKey:
    """The key of a message is what it says; the space keeps it apart from keys that are sent."""
    digest = hashlib.sha256(write_message(message).encode()).hexdigest()
    return RequestKey(f"message {digest}", sent_digest=digest)


def _require_holding(wiring: Wiring, replan: PlanSummary) -> None:
    newer = wiring.lineage.superseded_by(tenant_id=wiring.tenant_id, plan_id=replan.plan_id)
    if newer is not None:
        words = "A newer plan has taken the place of the one that answered this message."
        raise ServiceProblem("not_found", words)


def _state_of(wiring: Wiring, message: Message) -> tuple[str, dict[str, Any], Problem]:
    """The plan that a message is about, what was counted, and the problem of that plan."""
    plan_id = plan_of_code(wiring, message.plan_code)
    problem = read_plan_request(find_request(wiring, plan_id)).problem
    return plan_id, state_of(message, Numbers(problem)), problem


def _answer(wiring: Wiring, plan_id: str, problem: Problem) -> Response:
    plan = find_plan(wiring, plan_id)
    state, rest = replan_documents(plan)
    if state is None:
        words = "This plan was made before the start. Only a re-plan can answer a message."
        raise RequestFaults((Fault("", "no_replan", words),))
    counted = ReplanRequest.model_validate(state)
    line = wiring.lineage.line_to(tenant_id=wiring.tenant_id, plan_id=plan_id)
    text = None
    if is_final(plan):
        kind = plan.summary.outcome_kind
        text = write_message(
            answer_message(code_of(plan_id), counted, rest, kind, Numbers(problem))
        )
    return json_answer(
        MessageAnswer(
            plan_id=plan_id,
            of_plan=line[-2].plan_id if len(line) > 1 else plan_id,
            read_as=in_words(counted),
            counted=state,
            done=is_final(plan),
            text=text,
            say=[] if rest is None else rest["say"],
        )
    )
