"""Kit listed: a gear list with all four purposes, and with some left out."""

from functools import partial

import pytest

from solver.problem import Problem, Purpose
from tests.rules.calendar_worlds import hard_case, told
from tests.rules.party_worlds import thing
from tests.rules.worlds import RequestCase, request_found, world

RULE = "kit_listed"
_case = partial(hard_case, RULE)
ALL = (Purpose.STOVE, Purpose.POT, Purpose.SHELTER, Purpose.COMMUNICATOR)


def _world(*purposes: Purpose) -> Problem:
    return world(gear=tuple(thing(purpose) for purpose in purposes))


CASES = (
    _case("all four", _world(*ALL)),
    _case("no stove", _world(*ALL[1:]), 1),
    _case("no pot", _world(ALL[0], *ALL[2:]), 1),
    _case("no shelter", _world(*ALL[:2], ALL[3]), 1),
    _case("no communicator", _world(*ALL[:3]), 1),
    _case("nothing", _world(), 1, 1, 1, 1),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_each_purpose_is_listed(case: RequestCase) -> None:
    """Stove, pot, shelter and communicator are each listed, and each that is not is told."""
    assert request_found(case.problem, RULE) == case.finds


def test_what_is_missing_is_named() -> None:
    """The words name the purpose that no item has, and how to give it one."""
    (finding,) = told(CASES[1].problem, RULE)
    assert finding.message.startswith("no stove is listed in the gear")
    assert finding.instead[0] == "a stove in the gear"
