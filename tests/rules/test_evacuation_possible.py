"""Evacuation possible: six people and fewer, guides and none, and kit for one party or two."""

from dataclasses import replace
from functools import partial

import pytest

from solver.problem import Evacuation, Hazard, Problem, Purpose
from tests.rules.calendar_worlds import numbered, soft_case, told
from tests.rules.evacuation_worlds import (
    AT_CAMP,
    GUIDED_SIX,
    ON_TRIPS,
    SIX,
    STANDING_TENT,
    camp,
    kit,
)
from tests.rules.party_worlds import team, thing
from tests.rules.worlds import RequestCase, asked_alone, on_glacier, request_found, world

RULE = "evacuation_possible"
_case = partial(soft_case, RULE)
KINDS = (*ON_TRIPS, Purpose.RESCUE_KIT, *AT_CAMP)
ONE_GUIDE = (*team("r1", "guide-1", "c-1", "c-2"), *team("r2", "c-3", "c-4", "c-5"))
WEAK = (*SIX[:3], *(replace(p, load_limit_g=5_000) for p in SIX[3:]))
TENT = thing(Purpose.SHELTER, STANDING_TENT, item_id="tent", shelter_places=3)


def _two_days(*asked: Evacuation) -> Problem:
    return camp(SIX[:5], days="strip-c1 c1 c1-strip", asked=asked)


LOW_PAIRS = RequestCase(
    "two parties of two on low hazard, the ill with one companion",
    asked_alone(
        on_glacier(numbered(camp(SIX[:4], kit()), evacuation_companions=1), Hazard.LOW), RULE
    ),
)

CASES = (
    _case("six people and all kit", camp()),
    _case("five people", camp(SIX[:5]), 1),
    *(_case(f"one {p.value} too few", camp(gear=kit(p)), 1) for p in KINDS),
    _case("shelters too small", camp(gear=kit(places=2)), 1),
    _case("a standing tent", camp(gear=(*kit(Purpose.SHELTER), TENT))),
    _case("two guides, all kit", camp(GUIDED_SIX), 1),
    _case("one able companion is enough", numbered(camp(), evacuation_companions=1)),
    _case("three able companions asked for", numbered(camp(), evacuation_companions=3), 1),
    _case("everybody at the start place", world("strip strip-c1-strip", people=SIX[:2])),
    _case("the named one can go", camp(GUIDED_SIX, asked=(Evacuation("c-1"),))),
    _case("the named one cannot", camp(SIX[:5], asked=(Evacuation("m2"),)), 1),
    _case("five people, two nights", _two_days(), 2),
    _case("asked from the second night", _two_days(Evacuation("m2", 2)), 1),
    LOW_PAIRS,
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_two_parties_can_be_made(case: RequestCase) -> None:
    """A night counts on which those at a camp cannot part into two parties with all they need."""
    assert request_found(case.problem, RULE) == case.finds


def test_what_a_split_would_take_is_named() -> None:
    """The words name who, the nights, and the people and things that two parties would need."""
    problem = soft_case(RULE, "", camp(SIX[:5], kit(Purpose.ROPE))).problem
    (finding,) = told(problem, RULE)
    assert finding.message == (
        "any one of m1, m2, m3, m4 and m5 can be taken down only with everybody, at c1 on the "
        "night of day 1: for one party that leaves and one that stays, 1 person more and 1 more "
        "rope would be needed"
    )
    assert finding.instead[-1].startswith("everybody who is there goes down together")


def test_each_party_needs_a_guide() -> None:
    """With one guide among six there can be no two parties: a guide more would be needed."""
    problem = soft_case(RULE, "", camp(ONE_GUIDE, asked=(Evacuation("c-1"),))).problem
    (finding,) = told(problem, RULE)
    assert "1 guide more would be needed" in finding.message


def test_an_ill_guide_counts_as_no_guide() -> None:
    """Of two guides one who is ill leads nobody, so that the other cannot lead both parties."""
    (finding,) = told(_case("", camp(GUIDED_SIX)).problem, RULE)
    assert finding.message.startswith("any one of guide-1 and guide-2 can be taken down only")


def test_only_able_people_are_companions() -> None:
    """With load limits on all but two others of six, the two go along; on one more, nobody can."""
    fit = camp(WEAK, asked=(Evacuation("m1"),))
    weaker = replace(fit, roster=(*fit.roster[:2], *(replace(p, load_limit_g=1) for p in SIX[2:])))
    assert told(_case("", fit).problem, RULE) == []
    (finding,) = told(_case("", weaker).problem, RULE)
    assert "1 person more would be needed" in finding.message
