"""Communicators with voice: two that speak, and beacons that do not."""

from functools import partial

import pytest

from solver.problem import Problem, Purpose
from tests.rules.calendar_worlds import numbered, soft_case, told
from tests.rules.party_worlds import thing
from tests.rules.worlds import RequestCase, request_found, world

RULE = "communicators_with_voice"
_case = partial(soft_case, RULE)


def _world(*kinds: str | None, count: int = 1) -> Problem:
    return world(
        gear=tuple(
            thing(Purpose.COMMUNICATOR, item_id=f"com-{n}", communicator_kind=kind, count=count)
            for n, kind in enumerate(kinds)
        )
    )


CASES = (
    _case("two kinds that speak", _world("satellite telephone", "radio")),
    _case("two of one kind", _world("satellite telephone", count=2)),
    _case("one and a beacon", _world("satellite telephone", "beacon"), 1),
    _case("one and a text messenger", _world("radio", "Satellite Messenger"), 1),
    _case("one of no given kind beside another", _world("radio", None), 1),
    _case("none", _world(), 2),
    _case("one is enough for them", numbered(_world("radio"), least_voice_communicators=1)),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_two_communicators_speak(case: RequestCase) -> None:
    """Beacons, messengers and kinds that are not given do not count as voice."""
    assert request_found(case.problem, RULE) == case.finds


def test_the_words_tell_that_text_is_no_second_voice() -> None:
    """The words say how many are known to carry voice, and that text does not replace one."""
    (finding,) = told(CASES[2].problem, RULE)
    assert "1 communicator in the gear is known to carry voice, 2 are advised" in finding.message
    assert "a beacon or text does not replace the second" in finding.message
