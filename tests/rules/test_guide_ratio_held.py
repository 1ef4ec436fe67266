"""Guide ratio held: three and four clients with a guide, seven with two."""

from functools import partial

import pytest

from solver.problem import Problem
from tests.rules.calendar_worlds import hard_case, told
from tests.rules.party_worlds import THREE, team
from tests.rules.worlds import RequestCase, request_found, world

RULE = "guide_ratio_held"
_case = partial(hard_case, RULE)


def _world(guides: int, clients: int) -> Problem:
    names = (*(f"guide-{n}" for n in range(guides)), *(f"c-{n}" for n in range(clients)))
    return world(people=team("r1", *names))


CASES = (
    _case("three clients", _world(1, 3)),
    _case("four clients", _world(1, 4), 1),
    _case("six clients with two guides", _world(2, 6)),
    _case("seven clients with two guides", _world(2, 7), 1),
    _case("no guide at all", world(people=THREE)),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_clients_per_guide(case: RequestCase) -> None:
    """A party on a crevassed leg has at most three clients for each of its guides."""
    assert request_found(case.problem, RULE) == case.finds


def test_the_numbers_are_told() -> None:
    """The words say how many guides and clients there are, and how many are too many."""
    (finding,) = told(CASES[1].problem, RULE)
    assert finding.message.startswith("1 guide with 4 clients on crevassed legs")
    assert finding.message.endswith("at most 3 clients per guide, 1 too many")
    assert finding.instead[0] == "one more guide in the party"
