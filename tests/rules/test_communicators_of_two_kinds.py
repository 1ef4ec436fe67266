"""Communicators of two kinds: kinds told once, twice, and not at all."""

from functools import partial

import pytest

from solver.problem import Problem, Purpose
from tests.rules.calendar_worlds import hard_case, numbered, told
from tests.rules.party_worlds import thing
from tests.rules.worlds import RequestCase, request_found, world

RULE = "communicators_of_two_kinds"
_case = partial(hard_case, RULE)


def _world(*kinds: str | None) -> Problem:
    return world(
        gear=tuple(
            thing(Purpose.COMMUNICATOR, item_id=f"com-{n}", communicator_kind=kind)
            for n, kind in enumerate(kinds)
        )
    )


CASES = (
    _case("two kinds", _world("satellite messenger", "radio")),
    _case("two of a kind", _world("radio", "radio"), 1),
    _case("one", _world("radio"), 1),
    _case("none", _world(), 2),
    _case("one of no told kind beside another", _world("radio", None), 1),
    _case("three kinds", _world("radio", "satellite messenger", "beacon")),
    _case("one is enough for them", numbered(_world("radio"), least_communicator_kinds=1)),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_two_independent_kinds(case: RequestCase) -> None:
    """The gear tells two kinds of communicator at least; one not told counts as none."""
    assert request_found(case.problem, RULE) == case.finds


def test_an_untold_kind_is_asked_for() -> None:
    """The words name the communicator whose kind is not given."""
    (finding,) = told(CASES[4].problem, RULE)
    assert "the kind of com-1 is not given" in finding.message
    assert len(finding.instead) == 2
