"""Spare sled kept: sleds left below those who sleep high, taken home, and a drag tarp."""

from functools import partial

import pytest

from solver.problem import Problem, Purpose, Sled
from tests.rules.calendar_worlds import numbered, soft_case, told
from tests.rules.party_worlds import in_two_kitchens, thing
from tests.rules.worlds import RequestCase, person, request_found, world

RULE = "spare_sled_kept"
_case = partial(soft_case, RULE)
UP = "strip-c1 c1-c2 c2-c1-strip"
HAULER_HOME = "strip-c1 c1-c2|c1-strip c2-c1-strip|strip"


def _world(days: str = UP, *, sled: bool = True, tarp: bool = True, hauler: str = "m1") -> Problem:
    people = (person("m1", sled_g=20_000), person("m2", sled_g=20_000, rope_team_id="r2"))
    return world(
        days,
        people=people,
        sleds=(Sled("s1", hauler, 1_000, 90_000, 90_000),) if sled else (),
        sled_leg_factors=(100, 100),
        gear=(thing(Purpose.DRAG_TARP),) if tarp else (),
    )


NO_SLED_LEG = world("strip-c1 c1-strip")

CASES = (
    _case("left where the sled leg ends", _world()),
    _case("no sled at all", _world(sled=False), 1),
    _case("no drag tarp", _world(tarp=False), 1),
    _case("two asked for", numbered(_world(), spare_sleds=2), 1),
    _case("none asked for", numbered(_world(sled=False), spare_sleds=0)),
    _case("no sled leg, nothing to haul on", NO_SLED_LEG),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_a_sled_and_a_tarp_below_those_who_sleep_high(case: RequestCase) -> None:
    """While people sleep beyond a sled leg a sled stands on their way home, and a tarp is there."""
    assert request_found(case.problem, RULE) == case.finds


def test_a_sled_that_went_home_is_missed() -> None:
    """On the night after its hauler took it home the sled is missing for those up high."""
    away = in_two_kitchens(_world(HAULER_HOME, tarp=False, hauler="m2"))
    found = told(soft_case(RULE, "", away).problem, RULE)
    assert [finding.unit for finding in found] == ["sleds", "units"]
    assert found[0].message.startswith("night of day 2: people sleep at c2 with 0 of 1 sled")
