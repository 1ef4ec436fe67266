"""Party kit complete: kit that rides with every party, with one only, or with nobody."""

from functools import partial

import pytest

from solver.problem import Item, Need, NeedKind, Problem, Purpose
from tests.rules.calendar_worlds import hard_case, told
from tests.rules.party_worlds import THREE, WORN, team, thing
from tests.rules.worlds import EVERY_NIGHT, RequestCase, request_found, world

RULE = "party_kit_complete"
_case = partial(hard_case, RULE)

PER_TEAM = (Purpose.ROPE, Purpose.RESCUE_KIT)
PER_PARTY = (
    Purpose.SHOVEL,
    Purpose.SHELTER,
    Purpose.MEDICAL_KIT,
    Purpose.COMMUNICATOR,
    Purpose.NAVIGATION,
)
TWO_TEAMS = (*team("r1", "m1", "m2"), *team("r2", "m3", "m4"))


def _kit(*left_out: Purpose, ropes: int = 1, kits: int = 1) -> tuple[Item, ...]:
    counts = {Purpose.ROPE: ropes, Purpose.RESCUE_KIT: kits}
    return tuple(
        thing(purpose, count=counts.get(purpose, 1))
        for purpose in (*PER_TEAM, *PER_PARTY)
        if purpose not in left_out
    )


def _world(*gear: Item, days: str = "strip-c1-strip", people=THREE) -> Problem:
    return world(days, people=people, gear=gear)


def _of_teams(*teams: str) -> tuple[Item, ...]:
    """All kit for each of these rope teams."""
    return tuple(
        thing(purpose, item_id=f"{purpose.value}-{one}", rope_team_id=one)
        for one in teams
        for purpose in (*PER_TEAM, *PER_PARTY)
    )


def _radio(need: Need, **changes) -> Problem:
    return _world(*_kit(Purpose.COMMUNICATOR), thing(Purpose.COMMUNICATOR, need, **changes))


APART = "strip-c1-strip|strip-c1-strip"
NEAR = Need(NeedKind.EVERY_TRIP, up_to="c1")

CASES = (
    _case("all of it", _world(*_kit())),
    *(_case(f"no {p.value}", _world(*_kit(p)), 1) for p in (*PER_TEAM, *PER_PARTY)),
    _case("nothing at all", _world(), *(1,) * 7),
    _case("a rope for two rope teams", _world(*_kit(kits=2), people=TWO_TEAMS), 1),
    _case("two ropes for two rope teams", _world(*_kit(ropes=2, kits=2), people=TWO_TEAMS)),
    _case("apart, each with its own", _world(*_of_teams("r1", "r2"), days=APART, people=TWO_TEAMS)),
    _case("apart, one without", _world(*_of_teams("r1"), days=APART, people=TWO_TEAMS), *(1,) * 7),
    _case("worn by one of them", _radio(WORN, owner_id="m2")),
    _case("worn by somebody of all", _radio(WORN)),
    _case(
        "worn by somebody, maybe of the other party",
        _world(
            *(i for i in _of_teams("r1", "r2") if i.purpose is not Purpose.COMMUNICATOR),
            thing(Purpose.COMMUNICATOR, WORN),
            days=APART,
            people=TWO_TEAMS,
        ),
        1,
        1,
    ),
    _case("worn by all", _radio(WORN, count=3)),
    _case("in camp by night only", _radio(EVERY_NIGHT), 1),
    _case(
        "left at the first camp",
        _world(*_kit(Purpose.SHOVEL), thing(Purpose.SHOVEL, NEAR), days="strip-c1-c2-c1-strip"),
        1,
    ),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_every_party_has_its_kit(case: RequestCase) -> None:
    """What a rescue and a storm ask rides with each party, ropes by rope team."""
    assert request_found(case.problem, RULE) == case.finds


def test_party_trips_and_thing_are_named() -> None:
    """The words name the people, the trips on which it is missing, and the thing."""
    (finding,) = told(CASES[-1].problem, RULE)
    assert finding.message == (
        "m1, m2 and m3 travel crevassed legs (day 1, c1 to c2; day 1, c2 to c1) with 0 shovels "
        "sure to be with them, 1 needed"
    )
    assert finding.instead
