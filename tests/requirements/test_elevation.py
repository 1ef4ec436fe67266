"""Sleeping elevations under the four rules."""

from dataclasses import replace

import pytest

from solver.problem import Conditions, Leg, LegMode, Place, PlaceKind, Route, SleepingRule
from solver.requirements.elevation import elevation
from tests.problem.small_world import day, with_days
from tests.requirements.walking_world import figures, notices, part_of

FINDINGS = ("sleeping_step", "sleeping_rest_nights", "sleeping_rest_gain", "sleeping_first_night")


def climb(*nights_m, carry_m=None, rule=None, carry_day=None):
    """Everybody sleeps at these elevations; on `carry_day` they carry to `carry_m` and return."""
    slept_or_reached_m = list(dict.fromkeys((*nights_m, *((carry_m,) if carry_m else ()))))
    names = {metres: f"at-{metres}" for metres in slept_or_reached_m}
    order = sorted(slept_or_reached_m)
    places = tuple(Place(names[m], m, PlaceKind.CAMP) for m in order)
    way = ["road", *(names[m] for m in order)]
    legs = tuple(Leg(f"l{i}", way[i], way[i + 1], LegMode.PACK) for i in range(len(way) - 1))
    route = Route((Place("road", 1_000, PlaceKind.ROAD_HEAD), *places), legs)
    days, here = [], "road"
    for number, metres in enumerate(nights_m, start=1):
        walked = route.path(here, names[metres])
        if number == carry_day:
            out = route.path(names[metres], names[carry_m])
            walked = (*walked, *out[1:], *out[::-1][1:])
        days.append(day(*walked))
        here = names[metres]
    days.append(day(*route.path(here, "road")))
    return replace(with_days(*days), route=route, conditions=Conditions(sleeping_rule=rule))


def found(problem):
    """What the rule would not have, of whatever kind."""
    part = part_of(elevation, problem)
    return [notice for name in FINDINGS for notice in notices(part, name)]


def test_published_pace_passes():
    """2800, 3300, 3800, 4300, 4300, 4800 m keep 500 m a night and a rest (Luks et al. 2019)."""
    assert found(climb(2800, 3300, 3800, 4300, 4300, 4800)) == []


@pytest.mark.parametrize(("above_m", "count"), [(3499, 0), (3500, 0), (3501, 1), (3600, 1)])
def test_step_at_its_limit(above_m, count):
    """From 2800 over 3000 m a step of 500 m passes and one of 501 m is found."""
    assert len(found(climb(2800, 3000, above_m))) == count


def test_default_rule_is_wms_and_flagged():
    """Nobody having named a rule, it is the WMS one and every gain says that it is a default."""
    part = part_of(elevation, climb(2800, 3200))
    for figure in figures(part, "sleeping_gain"):
        assert figure.inputs[0].value == "wms"
        assert figure.inputs[0].is_default
        assert figure.inputs[0].source
    assert [figure.value for figure in figures(part, "sleeping_gain")] == [400.0]


def test_cautious_rule_is_stricter():
    """2400 to 2800 m, 400 m, passes the WMS rule and misses the cautious one's 300 m."""
    assert found(climb(2400, 2800)) == []
    steps = found(climb(2400, 2800, rule=SleepingRule.CAUTIOUS))
    assert [notice.notice_id for notice in steps] == ["sleeping_step"]
    assert dict(steps[0].about)["day"] == 2


def test_carry_high_sleep_low_is_credited():
    """A carry to 4200 m that sleeps at 3300 m again is no finding, and it is said to be credited.

    The case is that of the reference sheet to the WMS guideline: exercise high, sleep low.
    """
    problem = climb(2800, 3300, 3300, carry_m=4200, carry_day=3)
    assert found(problem) == []
    said = notices(part_of(elevation, problem), "sleeping_low_after_carry")
    assert ["day 3" in notice.message for notice in said] == [True]


def test_long_step_after_carry_is_softened():
    """A step of 700 m after two nights below and a carry stays a finding that tells its favour."""
    problem = climb(2800, 3300, 3300, 4000, carry_m=3900, carry_day=3)
    steps = found(problem)
    assert [notice.notice_id for notice in steps] == ["sleeping_step"]
    assert "count in its favour" in steps[0].message


def test_alike_people_are_told_once():
    """Four people who sleep at the same places get one row of gains, which counts them."""
    part = part_of(elevation, climb(2800, 3200))
    assert [dict(f.about)["people"] for f in figures(part, "sleeping_gain")] == [4]


def test_out_of_range():
    """A night at 9001 m gets a notice that names the limit, and no figure."""
    part = part_of(elevation, climb(2800, 9001))
    assert not part.figures
    assert "-400 to 9000 m" in notices(part, "sleeping_gain_not_given")[0].message


@pytest.mark.parametrize(("night_m", "count"), [(2500, 0), (2501, 1)])
def test_caution_defers_to_physician(night_m, count):
    """Sleeping above 2500 m brings the standing caution that leaves medicine to a physician."""
    said = notices(part_of(elevation, climb(night_m)), "altitude_illness")
    assert len(said) == count
    assert all(notice.is_caution and "physician" in notice.message for notice in said)
