"""Energy of people and days."""

from dataclasses import replace

import pytest

from solver.problem import Calendar, Conditions, Day, LegMode, Physique, Sex, Visit
from solver.requirements.energy import energy
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
    leg(distance_m=12_600, ascent_m=1_008, descent_m=0, hours_up=5.0, hours_down=3.0),
    conditions=Conditions(physiques=(PHYSIQUE,), sled_friction=0.10),
    with_sled=True,
)


def said(walk=HAULING):
    """What the energy part says of a walk."""
    return part_of(energy, walk.problem())


def test_hauling_day_lies_in_published_bands():
    """The reference day of an 80 kg hauler lies in 4000-5000 kcal and in 4173 +/- 848 kcal.

    Bulk-ration guidance for very cold trips with sleds (quoted); Wilderness Environ Med
    2013;24:337-344 (read). 25 kg and a sled of 40 kg over 12.6 km at 8 % in 5 h.
    """
    kcal = only_figure(said(), "day_energy", day=1).value
    assert 4000 <= kcal <= 5000
    assert 4173 - 848 <= kcal <= 4173 + 848


def test_walking_agrees_with_another_equation():
    """Pandolf's equation is within 1 % of the 2190 kcal that the LCDA equation gives that day."""
    assert only_figure(said(), "walking_energy", day=1).value == pytest.approx(2190, rel=0.01)


def test_sled_energy_by_hand():
    """40 kg at friction 0.1 and 8 % pull 70.4 N: 848 kcal over 12.6 km at 25 % efficiency."""
    figure = only_figure(said(), "sled_energy", day=1)
    assert figure.value == pytest.approx(848, abs=1)


def test_rest_is_counted_once():
    """The day is its walking and sled and 19 h of 1755 kcal/day, not 24 h of it."""
    part = said()
    moved = only_figure(part, "walking_energy", day=1).value
    moved += only_figure(part, "sled_energy", day=1).value
    day = only_figure(part, "day_energy", day=1).value
    assert day - moved == pytest.approx(19 * 73.125, abs=0.1)


def test_resting_energy_by_hand():
    """A man of 80 kg, 180 cm and 35 years rests at 800 + 1125 - 175 + 5 = 1755 kcal a day."""
    assert only_figure(said(), "resting_energy").value == pytest.approx(1755, abs=1e-6)


def test_total_energy_of_quoted_example():
    """The published NASEM value of an inactive man of 30 years, 170 cm, 70 kg is 2520.17 kcal."""
    body = Physique("ann", age_years=30, height_m=1.70, sex=Sex.MALE)
    walk = replace(HAULING, body_mass_g=70_000, conditions=Conditions(physiques=(body,)))
    assert only_figure(said(walk), "total_energy").value == pytest.approx(2520.17, abs=0.01)


def test_pandolf_on_the_flat_by_hand():
    """80 kg and 25 kg on 4 km of flat hard snow in an hour take 401 W, so 345 kcal.

    120 + 210 x 0.3125^2 + 1.3 x 105 x 1.5 x (10/9)^2 = 120 + 20.5 + 252.8 W.
    """
    walk = Walk(leg(LegMode.PACK, distance_m=4_000, ascent_m=0, descent_m=0, hours_up=1.0))
    expected_kcal = (120 + 20.51 + 252.78) * 3600 / 4184
    part = said(walk)
    assert only_figure(part, "walking_energy", day=1).value == pytest.approx(expected_kcal, abs=0.1)
    assert not figures(part, "sled_energy")


def test_short_day_is_an_ordinary_day():
    """A day of 1 h on the way is held at the 2672 kcal of an inactive day, and says so."""
    walk = Walk(leg(distance_m=4_000, ascent_m=0, descent_m=0, hours_up=1.0, hours_down=1.0))
    figure = only_figure(said(walk), "day_energy", day=1)
    assert figure.value == pytest.approx(753.07 - 379.05 + 1170 + 1128, abs=0.01)
    assert "ordinary inactive day" in figure.formula


def test_defaults_are_flagged():
    """Body, loads, snow and friction that nobody told are flagged with where they come from."""
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
    assert walking["terrain_factor_step_1"] == 1.3
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


def test_unknown_distance_takes_measured_rate():
    """Hours without a distance take man-hauling's measured 446 kcal/h (Halsey et al. 2015)."""
    walk = Walk(leg(hours_up=6.0, hours_down=3.0), with_sled=True)
    figure = only_figure(said(walk), "walking_energy", day=1)
    assert figure.value == pytest.approx(6 * 446, rel=0.001)


def test_too_steep_is_told():
    """A leg at 50 %, beyond the equation, gets a notice in place of that day's figures."""
    walk = Walk(leg(LegMode.PACK, distance_m=2_000, ascent_m=1_000, descent_m=0, hours_up=3.0))
    part = said(walk)
    assert not figures(part, "day_energy", day=1)
    assert any("0 to 45 %" in one.message for one in notices(part, "day_energy_not_given"))


def test_body_out_of_range_is_told():
    """A person of 17 years, too young for the equations, gets a notice and no figure."""
    young = Physique("ann", age_years=17, height_m=1.80, sex=Sex.MALE)
    part = said(replace(HAULING, conditions=Conditions(physiques=(young,))))
    assert not part.figures
    assert "19 to 78 years" in notices(part, "resting_energy_not_given")[0].message


def test_way_back_of_carry_is_light():
    """On a carry the pack is 80 % of its cap of 31.25 kg out and 30 % of it back, sled empty."""
    carry = Day((Visit(("north",), ("road", "camp", "road")),))
    stay = Day((Visit(("north",), ("road",)),))
    problem = replace(HAULING.problem(), calendar=Calendar((carry, stay)))
    figure = only_figure(part_of(energy, problem), "walking_energy", day=1)
    shown = defaults(figure)
    assert (shown["pack_load_step_1"], shown["pack_load_step_2"]) == (25.0, 9.375)
    assert (shown["sled_mass_step_1"], shown["sled_mass_step_2"]) == (40.0, 4.0)


def test_a_load_limit_is_the_cap_of_a_planned_load():
    """Limited to 10 kg somebody is taken to carry 80 % of that, and to haul the empty sled."""
    problem = HAULING.problem()
    weak = (replace(problem.roster[0], load_limit_g=10_000, load_limit_reason="knee"),)
    limited = replace(problem, roster=weak)
    shown = defaults(only_figure(part_of(energy, limited), "walking_energy", day=1))
    assert (shown["pack_load_step_1"], shown["sled_mass_step_1"]) == (8.0, 4.0)


def test_descent_by_hand():
    """12.6 km down 8 % in 3 h with 25 kg on hard snow take 313.4 W by Santee's correction.

    Level 419.2 W, fall -445.9 W, correction 1.3 x (-280 - 5.25 + 23.64) = -340.1 W.
    """
    figure = only_figure(said(), "walking_energy", day=2)
    assert figure.value == pytest.approx(313.4 * 3 * 3600 / 4184, abs=0.2)


def test_unknown_sex_takes_the_higher():
    """Without a sex told 75 kg, 175 cm and 35 years rest at the men's 1673.75 kcal."""
    walk = replace(HAULING, conditions=Conditions(), body_mass_g=None)
    assert only_figure(said(walk), "resting_energy").value == pytest.approx(1673.75, abs=1e-6)


def test_leg_factor_lightens_sled():
    """On a leg where half the sled's 50 kg may be hauled it is planned with 80 % of 25 kg."""
    walk = replace(HAULING, leg=replace(HAULING.leg, sled_factor_up_percent=50))
    shown = defaults(only_figure(said(walk), "sled_energy", day=1))
    assert shown["sled_mass_step_1"] == 20.0


def test_total_cap_lightens_sled():
    """Where pack and sled may be 55 kg together, 25 kg on the back leave 30 kg for the sled."""
    problem = HAULING.problem()
    (person,) = problem.roster
    person = replace(person, caps=replace(person.caps, total_g=55_000))
    part = part_of(energy, replace(problem, roster=(person,)))
    shown = defaults(only_figure(part, "sled_energy", day=1))
    assert shown["sled_mass_step_1"] == 30.0
