"""A translation that stands in for the real one, so that the service is tested without a solver."""

from dataclasses import dataclass

from service.errors import Fault, RequestFaults
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
    if document.get("order") == "break_the_web":
        raise ZeroDivisionError("a planted fault with a secret")
    return Order(document.get("reference"), document.get("solve_seconds"))


def judge_plan(document: dict) -> dict:
    """Find every plan in order."""
    read_plan_request(document)
    return {"reference": document.get("reference"), "check": {"passed": True}}


def state_requirements(document: dict, part_names: tuple[str, ...] | None = None) -> dict:
    """Need nothing, of the parts named."""
    read_plan_request(document)
    return {"reference": document.get("reference"), "figures": [], "parts": part_names}


TRANSLATION = Translation(
    read_plan_request, judge_plan, state_requirements, "tests.service.fake_jobs:obey"
)
