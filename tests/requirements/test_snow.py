"""Snow of legs: depth, season, who breaks trail, and the sled's friction."""

from __future__ import annotations

from dataclasses import replace

import pytest

from solver.problem import (
    Calendar,
    Conditions,
    Day,
    LegMode,
    Season,
    SnowKind,
    TrailBreaking,
    Visit,
    read_timeline,
)
from solver.requirements.energy import energy
from solver.requirements.snow import read_snow, season
from tests.requirements.walking_world import PHYSIQUE, Walk, leg, only_figure, part_of

WAY = leg(
    LegMode.PACK, distance_m=4_000, ascent_m=0, descent_m=0, hours_outbound=2.0, hours_homeward=2.0
)


def party(snow=SnowKind.SOFT, trail=None, guides=0, people=4, **facts):
    """A party on a leg with that snow, its first `guides` members being guides."""
    problem = Walk(replace(WAY, snow=snow, trail=trail, **facts)).problem()
    (ann,) = problem.roster
    roster = tuple(
        replace(ann, person_id=f"p{number}", is_guide=number < guides) for number in range(people)
    )
    return replace(problem, roster=roster)


def sinkage(problem, person=0, first_time=True):
    """How deep a member sinks on the first trip [cm]."""
    trip = read_timeline(problem).trips[0]
    return float(read_snow(problem, trip, f"p{person}", first_time=first_time).sinkage.value)


def test_all_share_the_first_time():
    """Four who take turns in soft snow of 12 cm sink (1 + 3 x 0.4) / 4 of it, 6.6 cm."""
    assert sinkage(party()) == pytest.approx(6.6)


def test_the_second_time_the_trail_is_broken():
    """On the same leg again everybody sinks 40 % as deep, 4.8 cm."""
    assert sinkage(party(), first_time=False) == pytest.approx(4.8)


def test_guides_break_trail_alone():
    """Where one guide breaks trail, the guide sinks 12 cm and the others 4.8 cm."""
    problem = party(trail=TrailBreaking.GUIDES, guides=1)
    assert sinkage(problem) == pytest.approx(12.0)
    assert sinkage(problem, person=1) == pytest.approx(4.8)


def test_a_party_without_guides_shares():
    """Where guides should break trail but none is there, all share it."""
    assert sinkage(party(trail=TrailBreaking.GUIDES)) == pytest.approx(6.6)


def test_depth_of_the_leg_wins():
    """A depth given with the leg counts, whatever its snow is called."""
    problem = party(trail=TrailBreaking.BROKEN, sinkage_cm=30.0)
    assert sinkage(problem) == pytest.approx(12.0)


@pytest.mark.parametrize(
    ("mode", "its_season", "depth_cm", "friction"),
    [
        (LegMode.SLED, Season.WINTER, 12.0, 0.15),
        (LegMode.SLED, Season.SPRING, 5.0, 0.10),
        (LegMode.PACK, Season.SUMMER, 5.0, 0.10),
        (LegMode.FIXED_ROPE, Season.WINTER, 0.0, 0.06),
        (LegMode.SUMMIT, Season.WINTER, 5.0, 0.10),
    ],
)
def test_default_by_mode_and_season(mode, its_season, depth_cm, friction):
    """A leg that says nothing of its snow has that of its mode and season, alone on the trail."""
    walk = Walk(leg(mode), conditions=Conditions(season=its_season))
    problem = walk.problem()
    trip = read_timeline(problem).trips[0]
    found = read_snow(problem, trip, "ann", first_time=True)
    assert (found.sinkage.value, found.friction.value) == (depth_cm, friction)
    assert its_season.value in found.sinkage.source


@pytest.mark.parametrize(
    ("month", "latitude_deg", "expected"),
    [
        (1, 63, "winter"),
        (5, 63, "spring"),
        (8, 63, "summer"),
        (1, -78, "summer"),
        (6, -33, "winter"),
    ],
)
def test_season_by_month_and_latitude(month, latitude_deg, expected):
    """The month of the first day says the season, half a year later in the south."""
    found = season(Conditions(month=month, latitude_deg=latitude_deg))
    assert found.value == expected


@pytest.mark.parametrize("known", [{"month": 1}, {"latitude_deg": 63.0}, {}])
def test_season_not_known_is_spring(known):
    """Without month or latitude it is spring, and the figure says that this is assumed."""
    found = season(Conditions(**known))
    assert (found.value, found.is_default) == ("spring", True)


def test_soft_snow_costs_as_measured():
    """In a trail of 20 cm, one alone spends what 28.46 L of oxygen a kilometre come to, and more.

    Ramaswamy et al. 1966 for 60 kg, here 80 kg and 25 kg: 28.46 x 4.9 x 105 / 60 = 244 kcal/km.
    """
    firm, soft = (
        only_figure(
            part_of(energy, Walk(replace(WAY, sinkage_cm=depth)).problem()), "walking_energy", day=1
        ).value
        for depth in (0.0, 20.0)
    )
    assert (soft - firm) / 4 == pytest.approx(244, abs=1)


def test_deeper_than_measured_is_held_and_said():
    """Snow of 60 cm is taken as the 37 cm that were measured, and a notice says so."""
    said = part_of(energy, Walk(replace(WAY, sinkage_cm=60.0)).problem())
    measured = part_of(energy, Walk(replace(WAY, sinkage_cm=37.0)).problem())
    kcal = [only_figure(part, "walking_energy", day=1).value for part in (said, measured)]
    assert kcal[0] == kcal[1]
    assert any("sinkage of 60 cm" in one.message for one in said.notices)


def test_second_passage_of_the_calendar_is_cheaper():
    """The same climb on a later day, in the own old trail, costs less."""
    walk = Walk(replace(WAY, snow=SnowKind.DEEP), conditions=Conditions(physiques=(PHYSIQUE,)))
    problem = walk.problem()
    days = tuple(Day((Visit(("north",), ("road", "camp", "road")),)) for _ in range(2))
    part = part_of(energy, replace(problem, calendar=Calendar(days)))
    first, second = (only_figure(part, "walking_energy", day=day).value for day in (1, 2))
    assert second < first
