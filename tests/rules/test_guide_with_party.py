"""Guide with party: parties with and without a guide, on guided trips and others."""

from functools import partial

import pytest

from tests.rules.calendar_worlds import hard_case, told
from tests.rules.party_worlds import THREE, team
from tests.rules.worlds import RequestCase, request_found, world

RULE = "guide_with_party"
_case = partial(hard_case, RULE)
TEAMS = (*team("r1", "guide-1", "c-1"), *team("r2", "c-2", "c-3"))

CASES = (
    _case("a guide among them", world(people=team("r1", "guide-1", "c-1"))),
    _case("one guide for two rope teams together", world(people=TEAMS)),
    _case("clients on their own", world("strip-c1-strip|strip-c1-strip", people=TEAMS), 1),
    _case("nobody is a guide", world(people=THREE)),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_every_party_of_a_guided_trip_has_a_guide(case: RequestCase) -> None:
    """On a guided trip no party travels a crevassed leg without a guide."""
    assert request_found(case.problem, RULE) == case.finds


def test_the_clients_are_named() -> None:
    """The words name the clients, and a guide, company or waiting is offered."""
    (finding,) = told(CASES[2].problem, RULE)
    assert finding.message.startswith("c-2 and c-3 travel crevassed legs (day 1, strip to c1")
    assert len(finding.instead) == 3
