"""Stress tests of a solved plan: ask for one, list them, read one, delete it."""

import json
import re
from typing import Annotated, Any

from fastapi import APIRouter, Header, Path, Query, Request
from starlette.concurrency import run_in_threadpool
from starlette.responses import Response

from api_schema.stress_answer import (
    STRESS_TEST_ID_PATTERN,
    StressFailureAnswer,
    StressProgressAnswer,
    StressResultAnswer,
    StressTestAnswer,
    StressTestEntryAnswer,
    StressTestListAnswer,
)
from service.errors import ServiceProblem
from service.http.answers import EVERY_BODY, JSON_ONLY, json_answer, problems, takes_json
from service.http.described_headers import READ_AGAIN
from service.http.request_body import SMALL_BODY_BYTES
from service.http.strict_json import read_json_object
from service.jobs.failures import FAILED
from service.routes.once import IdempotencyKey, begun_once
from service.routes.plan_documents import (
    find_plan,
    find_solved_outcome,
    find_whole_request,
    is_final,
    moment,
)
from service.routes.plans import PAGE_PLANS, PlanId
from service.routes.waiting import (
    after_wait,
    granted_wait,
    read_again,
    step_out,
    work_answer,
    work_answers,
)
from service.storage.idempotency import RequestKey
from service.storage.plan_ids import STRESS_TEST
from service.storage.plans import StoredPlan
from service.storage.stress_tests import StressTestEntry
from service.translate.read.stress import read_blows
from service.wiring import Wired, Wiring

router = APIRouter(tags=["stress tests"], dependencies=[JSON_ONLY])

_STRESS_TEST_ID = re.compile(STRESS_TEST_ID_PATTERN, re.ASCII)

StressTestId = Annotated[
    str,
    Path(
        description="The name that the service gave the stress test.",
        examples=["stress_01m894y1x3y07966fb6kk0wj7j"],
    ),
]


@router.post(
    "/v1/plans/{plan_id}/stress-tests",
    operation_id="create_stress_test",
    summary="Stress a plan",
    description=(
        "Tries one blow at a time on every day of a solved plan: a storm of some nights, or the "
        "loss of one sled, pack, cache, stove or carrier. For each blow the test says whether the "
        "plan stands as it is, survives after a re-plan, or does not survive. It also names the "
        "weakest day. Blows that are not decided in time count as not settled. With `odds` it "
        "draws storms and losses by the chances that you give. It says how often food and fuel "
        "last, how often the summit is reached in time, and which reserve helps most. The test "
        "waits in the queue of plans. The answer is 202 at once. With `Prefer: wait=N` the service "
        "waits up to N seconds and answers 201 if the test is over by then. Whatever the test "
        "says, the people on the spot decide."
    ),
    status_code=202,
    response_model=StressTestAnswer,
    responses={
        **work_answers(
            StressTestAnswer,
            what="The stress test.",
            ready="The test with its result, ready within the wait.",
            accepted="Accepted: the test is stored and waits, or is running.",
        ),
        **problems(
            *EVERY_BODY,
            "not_found",
            "no_result_yet",
            "plan_cancelled",
            "no_plan_in_outcome",
            "made_on_the_way",
            "idempotency_key_reused",
            "queue_full",
            "shutting_down",
        ),
    },
    openapi_extra=takes_json("StressTestRequest", {"everything": {}}),
)
async def create_stress_test(
    request: Request,
    wiring: Wired,
    plan_id: PlanId,
    _prefer: Annotated[
        str | None,
        Header(
            alias="Prefer",
            description="`wait=N`: seconds to wait for the result (RFC 7240).",
            examples=["wait=60"],
        ),
    ] = None,
    key: IdempotencyKey = None,
) -> Response:
    """Store a stress test and wait for its result as long as the caller prefers."""
    await run_in_threadpool(find_plan, wiring, plan_id)
    name = await begun_once(
        request,
        wiring,
        key,
        begin=lambda body, named: _accept(wiring, plan_id, body, named),
        again=lambda begun_id: begun_id,
        most_bytes=SMALL_BODY_BYTES,
    )
    step_out(request)
    seconds = granted_wait(request, wiring)
    stored = await after_wait(wiring, name, seconds, _find)
    return work_answer(
        _answer(stored).model_dump_json().encode(),
        address=f"/v1/stress-tests/{name}",
        final=is_final(stored),
        granted_seconds=seconds,
    )


@router.get(
    "/v1/plans/{plan_id}/stress-tests",
    operation_id="list_stress_tests",
    summary="List the stress tests of a plan",
    description=(
        "All stress tests of a plan, newest first, without their results. Read a result at `GET "
        "/v1/stress-tests/{stress_test_id}`."
    ),
    response_model=StressTestListAnswer,
    responses=problems("not_found", "invalid_request"),
)
def list_stress_tests(
    wiring: Wired,
    plan_id: PlanId,
    limit: Annotated[int, Query(ge=1, le=PAGE_PLANS, description="Tests on one page.")] = 20,
    cursor: Annotated[
        str | None,
        Query(pattern=STRESS_TEST_ID_PATTERN, description="`next_cursor` of the page before."),
    ] = None,
) -> Response:
    """One page of the tests of one plan."""
    find_plan(wiring, plan_id, with_outcome=False)
    found = wiring.stress_tests.of_plan(
        tenant_id=wiring.tenant_id, plan_id=plan_id, before_test_id=cursor, limit=limit + 1
    )
    page = found[:limit]
    return json_answer(
        StressTestListAnswer(
            stress_tests=[_entry(plan_id, one) for one in page],
            next_cursor=page[-1].stress_test_id if len(found) > limit else None,
        )
    )


@router.get(
    "/v1/stress-tests/{stress_test_id}",
    operation_id="read_stress_test",
    summary="Read a stress test",
    description="The state and progress of a stress test, and its result if there is one.",
    response_model=StressTestAnswer,
    responses={200: {"headers": dict(READ_AGAIN)}, **problems("not_found")},
)
def read_stress_test(wiring: Wired, stress_test_id: StressTestId) -> Response:
    """One stress test with all that is known of it."""
    stored = _find(wiring, stress_test_id)
    return json_answer(_answer(stored), headers=read_again(final=is_final(stored)))


@router.delete(
    "/v1/stress-tests/{stress_test_id}",
    operation_id="delete_stress_test",
    summary="Delete a stress test",
    description=(
        "Removes the test with the copy of the plan that it was made from. If the test is running, "
        "it ends. If you delete the plan, its tests go with it."
    ),
    status_code=204,
    response_class=Response,
    responses={204: {"description": "The test is gone."}, **problems("not_found")},
)
def delete_stress_test(wiring: Wired, stress_test_id: StressTestId) -> Response:
    """Remove one stress test."""
    _find(wiring, stress_test_id)
    wiring.store.delete(tenant_id=wiring.tenant_id, plan_id=stress_test_id)
    return Response(status_code=204)


def _accept(wiring: Wiring, plan_id: str, body: bytes, key: RequestKey | None) -> str:
    stored = find_whole_request(wiring, plan_id)
    place_ids = {place["place_id"] for place in stored["route"]["places"]}
    legs = {frozenset({leg["from"], leg["to"]}) for leg in stored["route"]["legs"]}
    asked = read_blows(read_json_object(body), place_ids, legs)
    outcome = find_solved_outcome(wiring, plan_id)
    accepted = wiring.store.accept(
        tenant_id=wiring.tenant_id,
        reference=outcome["reference"],
        solve_seconds=wiring.settings.granted_solve_seconds(asked.seconds),
        document={
            "stress_test": asked.model_dump(by_alias=True),
            "plan_id": plan_id,
            "reference": outcome["reference"],
            "request": stored,
            "plan": outcome["plan"],
        },
        kind=STRESS_TEST,
        tested_plan_id=plan_id,
        idempotency_key=key,
    )
    wiring.engine.wake()
    return accepted.plan_id


def _find(wiring: Wiring, stress_test_id: str) -> StoredPlan:
    stored = None
    if _STRESS_TEST_ID.fullmatch(stress_test_id) is not None:
        stored = wiring.store.read(tenant_id=wiring.tenant_id, plan_id=stress_test_id)
    if stored is None:
        raise ServiceProblem("not_found", "There is no stress test with this stress_test_id.")
    return stored


def _entry(plan_id: str, entry: StressTestEntry) -> StressTestEntryAnswer:
    finished = entry.finished_at_ms
    return StressTestEntryAnswer(
        stress_test_id=entry.stress_test_id,
        plan_id=plan_id,
        reference=entry.reference,
        state=entry.state,
        created_at=moment(entry.created_at_ms),
        finished_at=None if finished is None else moment(finished),
    )


def _answer(stored: StoredPlan) -> StressTestAnswer:
    asked: dict[str, Any] = json.loads(stored.request_document)
    told: dict[str, Any] = json.loads(stored.outcome_document or b"{}")
    failed = told.get("outcome") == FAILED
    progress, finished = stored.progress_document, stored.summary.finished_at_ms
    return StressTestAnswer(
        stress_test_id=stored.summary.plan_id,
        plan_id=asked["plan_id"],
        reference=stored.summary.reference,
        state=stored.summary.state,
        created_at=moment(stored.summary.created_at_ms),
        finished_at=None if finished is None else moment(finished),
        progress=None if progress is None else StressProgressAnswer.model_validate_json(progress),
        result=None if failed or not told else StressResultAnswer.model_validate(told),
        failure=StressFailureAnswer(code=told["code"], detail=told["detail"]) if failed else None,
    )
