"""Energy of people and days."""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path

import pytest

from service.translate.read.requests import read_plan_request
from solver.problem import (
    Calendar,
    Conditions,
    Day,
    LegMode,
    Physique,
    Problem,
    Route,
    Sex,
    Visit,
    read_timeline,
)
from solver.requirements.energy import energy, read_needs
from tests.requirements.walking_world import (
    PHYSIQUE,
    Walk,
    defaults,
    figures,
    leg,
    notices,
    only_figure,
    part_of,
)

HAULING = Walk(
    leg(distance_m=12_600, ascent_m=1_008, descent_m=0, hours_outbound=5.0, hours_homeward=3.0),
    conditions=Conditions(physiques=(PHYSIQUE,), sled_friction=0.10),
    with_sled=True,
)


def said(walk=HAULING):
    """What the energy part says of a walk."""
    return part_of(energy, walk.problem())


def parts_of(part, day=1):
    """The parts of a day's energy by name [kcal]."""
    figure = only_figure(part, "day_energy", day=day)
    return dict(figure.parts)


def test_hauling_day_lies_in_published_bands():
    """The reference day of an 80 kg hauler lies in 4000-5000 kcal and in 4173 +/- 848 kcal.

    Bulk-ration guidance for very cold trips with sleds (quoted); Wilderness Environ Med
    2013;24:337-344, by armband (read). 25 kg and a sled of 40 kg over 8 km at 5 % in 5 h.
    """
    walk = replace(
        HAULING, leg=leg(distance_m=8_000, ascent_m=400, descent_m=0, hours_outbound=5.0)
    )
    kcal = only_figure(said(walk), "day_energy", day=1).value
    assert 4000 <= kcal <= 5000
    assert 4173 - 848 <= kcal <= 4173 + 848


def test_hauling_costs_about_what_haulers_spent():
    """On flat crusted snow at 2.5 km/h, 25 kg and a sled of 40 kg take 446 kcal/h within 15 %.

    446 kcal/h: Halsey et al. 2015, estimated from heart rate and acceleration (abstract read).
    """
    walk = replace(HAULING, leg=leg(distance_m=12_500, ascent_m=0, descent_m=0, hours_outbound=5.0))
    moved = parts_of(said(walk))
    assert (moved["travel"] + moved["sled"]) / 5 == pytest.approx(446, rel=0.15)


def test_parts_add_up_to_the_day():
    """The six parts of a day add up to it, and the range lies around it."""
    part = said()
    figure = only_figure(part, "day_energy", day=1)
    assert list(parts_of(part)) == ["asleep", "awake", "travel", "sled", "camp_work", "digestion"]
    assert sum(parts_of(part).values()) == pytest.approx(figure.value)
    assert figure.low < figure.value < figure.high
    assert figure.most_uncertain == "travel"


def test_rest_and_camp_by_hand():
    """A man who rests at 73.1 kcal/h, 5 h on the way and 4 h at work in camp, is still for 15 h.

    8 h x 0.95 x 73.125 = 555.8 and 7 h x 1.4 x 73.125 = 716.6 kcal; a ninth of both is 141.4;
    4 h x 21.9 kJ/min are 1256.2 kcal.
    """
    parts = parts_of(said())
    assert parts["asleep"] == pytest.approx(555.8, abs=0.1)
    assert parts["awake"] == pytest.approx(716.6, abs=0.1)
    assert parts["digestion"] == pytest.approx(141.4, abs=0.1)
    assert parts["camp_work"] == pytest.approx(1256.2, abs=0.1)


def test_a_day_that_ends_where_it_began_has_less_camp_work():
    """A day in camp has 2.5 h of work, a day on which the camp moves 4 h."""
    stay = Day((Visit(("north",), ("camp",)),))
    problem = HAULING.problem()
    problem = replace(problem, calendar=Calendar((problem.calendar.days[0], stay)))
    part = part_of(energy, problem)
    assert parts_of(part, 2)["camp_work"] == pytest.approx(785.1, abs=0.1)
    assert parts_of(part, 2)["travel"] == 0


def test_rest_is_more_at_height():
    """At a camp of 4300 m the hours asleep cost 15 % more than at 2008 m."""
    low, high = (parts_of(said(replace(HAULING, camp_m=metres))) for metres in (2008, 4300))
    assert high["asleep"] == pytest.approx(1.15 * low["asleep"], abs=0.1)


def test_sled_energy_by_hand():
    """40 kg at friction 0.1 and 8 % pull 70.4 N: 848 kcal over 12.6 km at 25 % efficiency."""
    figure = only_figure(said(), "sled_energy", day=1)
    assert figure.value == pytest.approx(848, abs=1)


def test_resting_energy_by_hand():
    """A man of 80 kg, 180 cm and 35 years rests at 800 + 1125 - 175 + 5 = 1755 kcal a day."""
    assert only_figure(said(), "resting_energy").value == pytest.approx(1755, abs=1e-6)


def test_total_energy_of_quoted_example():
    """The published NASEM value of an inactive man of 30 years, 170 cm, 70 kg is 2520.17 kcal."""
    body = Physique("ann", age_years=30, height_m=1.70, sex=Sex.MALE)
    walk = replace(HAULING, body_mass_g=70_000, conditions=Conditions(physiques=(body,)))
    assert only_figure(said(walk), "total_energy").value == pytest.approx(2520.17, abs=0.01)


def test_walking_on_the_flat_by_hand():
    """80 kg and 25 kg on 3.6 km of flat snow, 3 cm deep, in an hour take 434 kcal.

    Rest 1.063 W/kg. (0.19 + 1.78 + 0.27) x (1 + 1.96 x 0.3125^1.36) = 3.142 W/kg, 10 % more in
    boots 3.457. Together 4.52 W/kg, 311.0 kcal; sinking 3 cm 1.27 x 3.128 L x 4.9 x 105 / 60 =
    34.06 kcal/km.
    """
    flat = leg(LegMode.PACK, distance_m=3_600, ascent_m=0, descent_m=0, hours_outbound=1.0)
    walk = Walk(replace(flat, sinkage_cm=3.0))
    expected_kcal = (1.063 + 3.457) * 80 * 3600 / 4184 + 3.6 * 34.06
    part = said(walk)
    assert only_figure(part, "walking_energy", day=1).value == pytest.approx(expected_kcal, abs=1)
    assert not figures(part, "sled_energy")


def test_defaults_are_flagged():
    """Body, loads, snow and friction that nobody gave are flagged with where they come from."""
    walk = replace(HAULING, conditions=Conditions(), body_mass_g=None)
    part = said(walk)
    assert defaults(only_figure(part, "resting_energy")) == {
        "body_mass": 75.0,
        "height": 1.75,
        "age": 35.0,
        "sex": "higher of both",
    }
    walking = defaults(only_figure(part, "walking_energy", day=1))
    assert walking["pack_load_step_1"] == 25.0
    assert walking["sinkage_step_1"] == 5.0
    assert walking["footwear_factor_step_1"] == 1.1
    assert defaults(only_figure(part, "sled_energy", day=1)) == {
        "sled_mass_step_1": 40.0,
        "sled_friction_step_1": 0.1,
        "muscular_efficiency_step_1": 0.25,
    }


def test_sled_that_pushes_costs_nothing():
    """Down 8 % at friction 0.05 the sled pushes, and no energy is put down for it."""
    conditions = Conditions(physiques=(PHYSIQUE,), sled_friction=0.05)
    part = said(replace(HAULING, conditions=conditions))
    assert not figures(part, "sled_energy", day=2)
    assert figures(part, "day_energy", day=2)


def test_too_steep_is_held_and_said():
    """A leg at 50 % is taken at 45 % with the same metres an hour, and a notice says so."""
    walk = Walk(
        leg(LegMode.PACK, distance_m=2_000, ascent_m=1_000, descent_m=0, hours_outbound=3.0)
    )
    part = said(walk)
    steep = only_figure(part, "walking_energy", day=1).value
    gentler = replace(walk, leg=replace(walk.leg, distance_m=2_222))
    near = only_figure(said(gentler), "walking_energy", day=1).value
    assert steep == pytest.approx(near, rel=0.02)
    assert any("slope of 50 %" in one.message for one in notices(part, "energy_beyond_range"))


def test_body_out_of_range_is_held_and_said():
    """A person of 17 years has the figures of 19 years, the youngest of the equations."""
    young, youngest = (
        said(replace(HAULING, conditions=Conditions(physiques=(replace(PHYSIQUE, age_years=age),))))
        for age in (17, 19)
    )
    assert only_figure(young, "resting_energy").value == (
        only_figure(youngest, "resting_energy").value
    )
    assert "age of 17 years" in notices(young, "energy_beyond_range")[0].message
    assert not notices(youngest, "energy_beyond_range")


@pytest.mark.parametrize(
    "facts",
    [
        {},
        {"distance_m": 61_000},
        {"distance_m": 500, "ascent_m": 3_000, "descent_m": 0, "hours_outbound": 1.0},
        {"distance_m": 40_000, "ascent_m": 0, "descent_m": 0, "hours_outbound": 2.0},
        {"hours_outbound": 30.0, "hours_homeward": 30.0},
    ],
    ids=["nothing", "too far", "too steep", "too fast", "too long"],
)
def test_every_day_has_a_figure(facts):
    """Whatever a leg says or leaves open, each person-day has its energy."""
    part = said(replace(HAULING, leg=leg(**facts)))
    assert len(figures(part, "day_energy")) == 2
    assert all(1_500 < figure.value < 15_001 for figure in figures(part, "day_energy"))


def test_a_day_beyond_anybody_is_held_and_said():
    """60 km and 12 km of climb in 20 h are taken as a day of 15,000 kcal, with a notice."""
    facts = {"distance_m": 60_000, "ascent_m": 12_000, "descent_m": 0, "hours_outbound": 20.0}
    part = said(replace(HAULING, leg=leg(**facts)))
    assert only_figure(part, "day_energy", day=1).value == pytest.approx(15_000)
    assert any("beyond what anybody" in one.message for one in notices(part, "energy_beyond_range"))


def test_time_not_known_is_assumed_and_said():
    """A leg with neither hours nor distance gets an assumed time, and the notice asks for hours."""
    (notice, *_) = notices(said(replace(HAULING, leg=leg())), "energy_time_assumed")
    assert "Give hours with the leg" in notice.message


EXAMPLES = ("guided-six", "guided-seven", "guided-twelve", "independent-three")


def example(name: str) -> Problem:
    """The problem of an example request."""
    path = Path(__file__).parents[2] / "examples" / f"{name}.json"
    return read_plan_request(json.loads(path.read_text(encoding="utf-8"))).problem


@pytest.mark.parametrize("name", EXAMPLES)
def test_mean_day_of_examples_is_credible(name):
    """The examples' mean day lies between 3300 and 4700 kcal, where measured ascents lie."""
    days = [figure.value for figure in figures(part_of(energy, example(name)), "day_energy")]
    assert 3_300 <= sum(days) / len(days) <= 4_700


@pytest.mark.parametrize("name", EXAMPLES)
def test_summit_days_of_examples_are_as_measured(name):
    """The leader's summit day lies in 4173 +/- 848 kcal, measured by armband on a high peak."""
    problem = example(name)
    (day,) = [
        number
        for number, each in enumerate(problem.calendar.days, start=1)
        if "summit" in each.visits[0].places
    ]
    leader = problem.roster[0].person_id
    kcal = only_figure(part_of(energy, problem), "day_energy", day=day, person_id=leader).value
    assert 4173 - 848 <= kcal <= 4173 + 848


@pytest.mark.parametrize("name", EXAMPLES)
def test_deleting_a_distance_stays_within_the_range(name):
    """Without a leg's distance no day moves by more than the range that is then given for it."""
    problem = example(name)
    before = read_needs(problem, read_timeline(problem)).days
    for index, one in enumerate(problem.route.legs):
        legs = list(problem.route.legs)
        legs[index] = replace(one, distance_m=None)
        shorter = replace(problem, route=Route(problem.route.places, tuple(legs)))
        after = read_needs(shorter, read_timeline(shorter)).days
        for key, need in after.items():
            assert abs(need.kcal - before[key].kcal) <= need.whole.off_kcal, (one.leg_id, key)


def test_unknown_sex_takes_the_higher():
    """Without a sex told 75 kg, 175 cm and 35 years rest at the men's 1673.75 kcal."""
    walk = replace(HAULING, conditions=Conditions(), body_mass_g=None)
    assert only_figure(said(walk), "resting_energy").value == pytest.approx(1673.75, abs=1e-6)
