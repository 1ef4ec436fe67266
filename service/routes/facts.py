"""What callers can read up on: rules, units, limits, and the kinds of problems."""

from typing import Annotated

from fastapi import APIRouter, Path
from starlette.responses import Response

from api_schema.operation import ProblemKindAnswer
from api_schema.reference import LimitAnswer, LimitsAnswer, RulesAnswer, UnitsAnswer
from service.errors import PROBLEMS, ServiceProblem
from service.http.answers import JSON_ONLY, json_answer, problems
from service.http.problem_answers import MOST_FAULTS_LISTED
from service.http.request_body import SMALL_BODY_BYTES
from service.http.strict_json import DEEPEST_NESTING, MOST_VALUES
from service.reports.limits import request_limit_entries
from service.reports.rules import DEFERENCE, not_rule_entries, rule_entries
from service.reports.units import dimension_entries
from service.routes.plans import PAGE_PLANS
from service.wiring import Wired

router = APIRouter(tags=["facts"], dependencies=[JSON_ONLY])


@router.get(
    "/v1/rules",
    operation_id="list_rules",
    summary="List the rules",
    description=(
        "Every rule by which requests and plans are checked, with its kind, its numbers, its "
        "source and what a request may change. Then the practices of guides that have no rule of "
        "their own here."
    ),
    response_model=RulesAnswer,
    responses=problems(),
)
def list_rules() -> Response:
    """The rulebook."""
    answer = RulesAnswer(deference=DEFERENCE, rules=rule_entries(), not_rules=not_rule_entries())
    return json_answer(answer)


@router.get(
    "/v1/units",
    operation_id="list_units",
    summary="List the units",
    description="Every kind of quantity in requests, how to write it, and its units.",
    response_model=UnitsAnswer,
    responses=problems(),
)
def list_units() -> Response:
    """The closed list of units."""
    return json_answer(UnitsAnswer(dimensions=dimension_entries()))


@router.get(
    "/v1/limits",
    operation_id="list_limits",
    summary="List the limits",
    description="How large a request may be, and how long answers may take.",
    response_model=LimitsAnswer,
    responses=problems(),
)
def list_limits(wiring: Wired) -> Response:
    """The limits that this service was started with."""
    settings = wiring.settings
    rows = (
        ("body_bytes", settings.body_limit_bytes, "bytes", "Largest request body."),
        ("file_bytes", settings.file_limit_bytes, "bytes", "Largest file that is read."),
        (
            "plan_check_bytes",
            settings.check_limit_bytes,
            "bytes",
            "Largest body of a plan check, which holds a plan besides the request.",
        ),
        (
            "small_body_bytes",
            min(SMALL_BODY_BYTES, settings.body_limit_bytes),
            "bytes",
            "Largest body of a release, a message or a stress test.",
        ),
        (
            "values",
            MOST_VALUES,
            "values",
            "Most values of a body that no process of its own reads, such as a comparison.",
        ),
        ("nesting", DEEPEST_NESTING, "levels", "Deepest nesting of a request body."),
        (
            "solve_default",
            round(settings.solve_seconds),
            "s",
            "Time of a solve if the request gives none.",
        ),
        ("solve_longest", round(settings.solve_limit_seconds), "s", "Longest time of a solve."),
        ("solve_memory", settings.solve_memory_mb, "MiB", "Private memory of one solve."),
        ("solves_at_once", settings.solve_workers, "plans", "Plans solved at the same time."),
        ("plans_waiting", settings.queue_limit, "plans", "Plans that may wait to be solved."),
        (
            "event_streams",
            settings.open_streams(),
            "streams",
            "Streams of events that may be open. One caller may have half of them.",
        ),
        ("wait", settings.wait_limit_seconds, "s", "Longest wait granted to Prefer: wait=N."),
        ("page", PAGE_PLANS, "plans", "Most plans on one page of a list."),
        ("errors_listed", MOST_FAULTS_LISTED, "faults", "Most faults listed in one answer."),
    )
    of_the_service = [
        LimitAnswer(limit_id=limit_id, value=value, unit=unit, description=description)
        for limit_id, value, unit, description in rows
    ]
    return json_answer(LimitsAnswer(limits=[*of_the_service, *request_limit_entries()]))


@router.get(
    "/v1/problems/{problem_code}",
    operation_id="read_problem_kind",
    summary="Read about a kind of problem",
    description="The explanation to which the member `type` of a problem answer leads.",
    response_model=ProblemKindAnswer,
    responses=problems("not_found"),
)
def read_problem_kind(
    problem_code: Annotated[
        str, Path(description="The code of a problem.", examples=["invalid_request"])
    ],
) -> Response:
    """One row of the table of problems."""
    kind = PROBLEMS.get(problem_code)
    if kind is None:
        raise ServiceProblem("not_found", "There is no problem with this code.")
    return json_answer(
        ProblemKindAnswer(
            code=problem_code, status=kind.status, title=kind.title, advice=kind.advice
        )
    )
