"""Pack cap held: the checker at, above and below a pack's cap."""

import pytest

from solver.checker import check
from solver.plan import Plan
from solver.problem import Direction, LegMode, Problem
from tests.rules.worlds import Case, found, item, person, plan_of, world


def _world(pack_g: int, **caps) -> Problem:
    """Nine kilograms of kit and one of water out and back, all on one person."""
    people = (person(pack_g=pack_g, water_g=1_000, **caps),)
    return world(people=people, gear=(item("kit", mass_g=9_000),))


def _plan(problem: Problem) -> Plan:
    return plan_of(problem, {"m1": "kit"}, {"m1": "kit"})


def _case(name: str, problem: Problem, *over_g: int) -> Case:
    finds = tuple(("pack_cap_held", amount) for amount in over_g)
    return Case(name, problem, _plan(problem), finds, solvable=not over_g)


UPHILL = (LegMode.PACK, Direction.OUTBOUND)

CASES = (
    _case("below", _world(10_001)),
    _case("at", _world(10_000)),
    _case("above", _world(9_999), 1, 1),
    _case("at on the way up", _world(20_000, pack_by_leg=((*UPHILL, 10_000),))),
    _case("above on the way up", _world(20_000, pack_by_leg=((*UPHILL, 9_990),)), 10),
    _case("another mode", _world(10_000, pack_by_leg=((LegMode.SLED, Direction.OUTBOUND, 1),))),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_a_pack_may_weigh_its_cap_with_water_and_no_gram_more(case):
    """A pack with its water is judged by the cap of its leg's mode and direction, to the gram."""
    assert found(case.problem, case.plan) == case.finds


def test_the_finding_says_who_when_where_and_how_much():
    """The message names the pack, the trip, the mass, the cap and what is over."""
    case = CASES[4]
    (finding,) = check(case.problem, case.plan).findings
    assert finding.message == (
        "pack of m1 on day 1, strip to c1: 10.000 kg, cap 9.990 kg, 0.010 kg over"
    )
    assert finding.unit == "g"
    assert dict(finding.where)["person"] == "m1"
