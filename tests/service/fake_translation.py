"""A translation that stands in for the real one, so that the service is tested without a solver."""

import time
from dataclasses import dataclass

from api_schema.check_answer import CheckAnswer
from api_schema.plan_check import PlanCheckAnswer
from api_schema.requirements_answer import RequirementsAnswer
from service.errors import Fault, RequestFaults
from service.jobs.desk_job import desk_job
from service.wiring import Translation


@dataclass(frozen=True)
class Order:
    """A request in order."""

    reference: str | None
    solve_seconds: float | None


def read_plan_request(document: dict) -> Order:
    """Take any object; one with a member "faults" is refused with so many faults."""
    count = document.get("faults", 0)
    if count:
        faults = (Fault(f"/roster/{n}/pack_cap", "no_unit", "Write a unit.") for n in range(count))
        raise RequestFaults(tuple(faults))
    if document.get("order") == "burn":
        while True:
            pass
    if document.get("order") == "eat":
        eaten = [bytearray(16 * 1024 * 1024) for _ in range(10_000)]
        raise ZeroDivisionError(len(eaten))
    if document.get("order") == "sleep_at_the_desk":
        time.sleep(document["seconds"])
    if document.get("order") == "break_the_web":
        raise ZeroDivisionError("a planted fault with a secret")
    return Order(document.get("reference"), document.get("solve_seconds"))


def judge_plan(document: dict) -> PlanCheckAnswer:
    """Find every plan in order."""
    read_plan_request(document)
    return PlanCheckAnswer(
        reference=document.get("reference"),
        check=CheckAnswer(
            passed=True,
            rules_checked=0,
            findings=[],
            findings_left_out=0,
            remarks=[],
            remarks_left_out=0,
        ),
        peak=None,
        loads=[],
        keepers=[],
        assumptions=[],
        cautions=[],
    )


def state_requirements(document: dict, _part_names: tuple[str, ...] | None) -> RequirementsAnswer:
    """Need nothing, of whatever parts."""
    read_plan_request(document)
    return RequirementsAnswer(
        reference=document.get("reference"),
        figures=[],
        notices=[],
        assumptions=[],
        cautions=[],
    )


def order_replan(followed: dict, state: dict) -> tuple[Order, dict]:
    """Take any state; what is stored is both."""
    return read_plan_request(state), followed | {"state": state}


TRANSLATION = Translation(
    read_plan_request,
    judge_plan,
    state_requirements,
    order_replan,
    "tests.service.fake_jobs:obey",
)

work_at_desk = desk_job(read_plan_request, judge_plan, state_requirements, order_replan)
