"""Evacuation party: what the answer says of people whom the request asks about."""

from dataclasses import replace
from functools import partial

import pytest

from solver.problem import Evacuation, Reserve, ReserveKind
from tests.rules.calendar_worlds import soft_case, told
from tests.rules.evacuation_worlds import GUIDED_SIX, SIX, camp
from tests.rules.worlds import RequestCase, request_found

RULE = "evacuation_party"
_case = partial(soft_case, RULE)

CASES = (
    _case("nobody asked about", camp()),
    _case("somebody asked about", camp(asked=(Evacuation("m2"),)), 3),
    _case("a client asked about", camp(GUIDED_SIX, asked=(Evacuation("c-3"),)), 3),
    _case("two asked about", camp(asked=(Evacuation("m2"), Evacuation("m4"))), 3, 3),
    _case("no split possible", camp(SIX[:5], asked=(Evacuation("m2"),))),
    _case("from a day when all are down", camp(asked=(Evacuation("m2", 2),))),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_a_party_is_named_for_whom_the_request_asks_about(case: RequestCase) -> None:
    """Each person asked about who could be taken down is told with the size of the party."""
    assert request_found(case.problem, RULE) == case.finds


def test_companions_kit_and_stock_are_told() -> None:
    """The words name who goes along, who stays, what they take and what stands there."""
    (finding,) = told(CASES[2].problem, RULE)
    assert finding.message.startswith(
        "c-3 can be taken down at c1 on the night of day 1: guide-2 and c-4 may go along, "
        "guide-1, c-1 and c-2 stay; they take a rope, 2 rescue kits, a shelter for all of them"
    )
    assert "2 nights of food and fuel each, and at most 8 kg of it" in finding.message
    assert finding.message.endswith("so the food and fuel come out of what stands there")


def test_an_evacuation_reserve_is_named() -> None:
    """Where an evacuation reserve is held at the camp, the words say so."""
    held = Reserve("c1", "g1", ReserveKind.EVACUATION, 1, "meal", people=3)
    problem = replace(CASES[1].problem, reserves=(held,))
    (finding,) = told(problem, RULE)
    assert finding.message.endswith("an evacuation reserve is held at c1")
