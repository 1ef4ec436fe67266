"""Party big enough: one, two, three and more people on a leg, by its crevasse hazard."""

from functools import partial

import pytest

from solver.checker import check_request
from solver.outcome import Infeasible
from solver.pipeline import plan
from solver.problem import Hazard, Person, Problem
from tests.rules.calendar_worlds import hard_case, numbered, told
from tests.rules.party_worlds import THREE, in_two_kitchens, team
from tests.rules.worlds import RequestCase, asked_alone, on_glacier, request_found, world

RULE = "party_big_enough"
_case = partial(hard_case, RULE)
NAMES = ("m1", "m2", "m3", "m4")


def _low(name: str, people: int, *amounts: int) -> RequestCase:
    problem = on_glacier(world(people=team("r1", *NAMES[:people])), Hazard.LOW)
    finds = tuple((RULE, amount) for amount in amounts)
    return RequestCase(name, asked_alone(problem, RULE), finds, solvable=not amounts)


def _high(people: int) -> Problem:
    return world(people=team("r1", *NAMES[:people]))


PAIRS: tuple[Person, ...] = (*team("r1", "m1", "m2"), *team("r2", "m3", "m4"))
TOGETHER = world(people=PAIRS)
APART = world("strip-c1-strip|strip-c1-strip", people=PAIRS)
GUIDE_AND_CLIENT = in_two_kitchens(
    world(
        "strip-c1 c1|c1-strip c1-strip|strip",
        people=(*team("r1", "guide-1", "c-1", "c-2"), *team("r2", "guide-2", "c-3")),
    )
)

CASES = (
    _case("three", _high(3)),
    _case("two", _high(2), 1),
    _case("one", _high(1), 2),
    _low("two where it is low", 2),
    _low("one where it is low", 1, 1),
    _case("two rope teams together", TOGETHER),
    _case("two rope teams, each alone", APART, 1, 1),
    _case("a guide and a client down alone", GUIDE_AND_CLIENT, 1),
    _case("four asked for", numbered(_high(3), least_party_people=4), 1),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_at_least_three_on_a_crevassed_leg(case: RequestCase) -> None:
    """Three roped people at least travel a crevassed leg, two where its hazard is low."""
    assert request_found(case.problem, RULE) == case.finds


def test_a_guide_and_a_client_sent_down_alone_are_refused_with_what_is_allowed() -> None:
    """The refusal names both, the leg and the least party, and offers four ways out."""
    outcome = plan(CASES[7].problem)
    assert isinstance(outcome, Infeasible)
    (conflict,) = outcome.conflicts
    assert conflict.message == (
        "guide-2 and c-3 go alone over crevassed legs (day 2, c1 to strip): 2 roped people where "
        "the crevasse hazard is high, at least 3 needed"
    )
    assert tuple(way.text for way in conflict.remedies) == (
        "one more person roped in with guide-2 and c-3 on these trips",
        "rope team r1 goes with them on day 2",
        "everybody who is at c1 goes to strip together",
        "guide-2 and c-3 wait at c1 until a party that is big enough goes",
    )


def test_moderate_hazard_is_not_low() -> None:
    """Two people on a leg of moderate hazard are one too few."""
    problem = asked_alone(on_glacier(world(people=THREE[:2]), Hazard.MODERATE), RULE)
    assert request_found(problem, RULE) == ((RULE, 1),)


def test_no_other_rope_team_is_offered_where_none_is_near() -> None:
    """Somebody alone on the mountain is told of more people only: nobody is there to wait for."""
    (finding,) = told(CASES[2].problem, RULE)
    assert finding.message.startswith("m1 goes alone over crevassed legs")
    assert finding.instead == ("2 more people roped in with m1 on these trips",)


def test_a_route_without_hazards_asks_nothing() -> None:
    """Where no leg says its crevasse hazard the rule is not asked."""
    assert RULE not in check_request(_high(1)).rules_checked
