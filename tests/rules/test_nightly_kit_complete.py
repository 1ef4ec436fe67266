"""Nightly kit complete: a person's full kit, and each piece of it missing or elsewhere."""

from functools import partial

import pytest

from solver.problem import Item, Need, NeedKind, Problem, Purpose
from tests.rules.calendar_worlds import hard_case, told
from tests.rules.party_worlds import WORN, team, thing
from tests.rules.worlds import EVERY_NIGHT, EVERY_TRIP, RequestCase, request_found, world

RULE = "nightly_kit_complete"
_case = partial(hard_case, RULE)
NIGHT = (Purpose.SLEEPING_BAG, Purpose.SLEEPING_PAD, Purpose.DRY_LAYER)
TRAVEL = (Purpose.SHELL_CLOTHING, Purpose.WARM_JACKET, Purpose.MITTS, Purpose.EYE_PROTECTION)


def _kit(owner: str = "m1", *, without: tuple[Purpose, ...] = ()) -> tuple[Item, ...]:
    nights = [thing(p, EVERY_NIGHT, owner_id=owner) for p in NIGHT if p not in without]
    days = [thing(p, WORN, owner_id=owner) for p in TRAVEL if p not in without]
    return (*nights, *days)


def _world(*gear: Item, people=team("r1", "m1")) -> Problem:  # noqa: B008
    return world("strip-c1 c1-c2-c1-strip", people=people, gear=gear)


def _instead(purpose: Purpose, need: Need) -> Problem:
    """The one person's kit with another need of one piece."""
    return _world(*_kit(without=(purpose,)), thing(purpose, need, owner_id="m1"))


TWO = team("r1", "m1", "m2")
PAD = Purpose.SLEEPING_PAD
SHARED = thing(PAD, EVERY_NIGHT, item_id="pads")

CASES = (
    _case("all of it", _world(*_kit())),
    *(_case(f"no {p.value}", _world(*_kit(without=(p,))), 1) for p in (*NIGHT, *TRAVEL)),
    _case("mitts only", _world(thing(Purpose.MITTS, WORN, owner_id="m1")), 6),
    _case("no clothing told", _world()),
    _case("jacket on every trip", _instead(Purpose.WARM_JACKET, EVERY_TRIP)),
    _case("jacket by night only", _instead(Purpose.WARM_JACKET, EVERY_NIGHT), 1),
    _case("bag on every trip", _instead(Purpose.SLEEPING_BAG, EVERY_TRIP)),
    _case("bag from the second camp on", _instead(PAD, Need(NeedKind.EVERY_NIGHT, "c2")), 1),
    _case(
        "jacket left at the first camp",
        _instead(Purpose.WARM_JACKET, Need(NeedKind.EVERY_TRIP, up_to="c1")),
        1,
    ),
    _case(
        "two shared pads for two",
        _world(
            *_kit("m1", without=(PAD,)),
            *_kit("m2", without=(PAD,)),
            SHARED,
            thing(PAD, EVERY_NIGHT, item_id="other-pads"),
            people=TWO,
        ),
    ),
    _case(
        "one shared pad for two",
        _world(*_kit("m1", without=(PAD,)), *_kit("m2", without=(PAD,)), SHARED, people=TWO),
        1,
    ),
    _case("one has all, the other little", _world(*_kit(), *_kit("m2")[:3], people=TWO), 4),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_what_nights_and_travel_days_ask(case: RequestCase) -> None:
    """Everybody whose clothing is told has seven things, each where it is needed."""
    assert request_found(case.problem, RULE) == case.finds


def test_person_and_pieces_are_named() -> None:
    """The words name the person and every piece that is missing."""
    (finding,) = told(CASES[-1].problem, RULE)
    assert finding.message.startswith(
        "m2 has no shell clothing, warm jacket, mitts and eye protection that is sure to be there"
    )
    assert finding.instead[0].endswith("of m2 in the gear")
