"""Small things that are used up, reckoned by hand for two people, three days and two nights."""

from dataclasses import replace

import pytest

from solver.problem import Physique
from solver.requirements.consumables import consumables
from tests.requirements.snow_world import (
    figure,
    notices,
    reckoned,
    snow_world,
    told,
    with_conditions,
    with_leg,
    with_place,
)


@pytest.mark.parametrize(
    ("figure_id", "expected"),
    [
        ("sun_cream_tubes", 1),  # 2 × 10.8 g in tubes of 50 g
        ("batteries", 2),  # 3 days × 7 Wh × 1.25 = 26.3 Wh; 37 Wh × 0.70 = 25.9 Wh
        ("toilet_paper", 60),  # 4 person-nights × 15 g
        ("toilet_paper_rolls", 1),
        ("waste_bags", 5),  # 4 × 1.20 = 4.8
        ("water_treatment", 12),  # 4 × 3 L
        ("water_treatment_packs", 1),
    ],
)
def test_amounts_are_those_worked_by_hand(figure_id, expected):
    """Rates are common practice; the comment beside each number works it out (exact)."""
    assert figure(reckoned(consumables, snow_world()), figure_id).value == expected


def test_sun_cream_is_half_the_test_dose_on_face_and_neck():
    """3 days × 4 × half of 2 mg/cm² (ISO 24444, quoted) × 5 % of 1.8 m² = 10.8 g (by hand)."""
    cream = figure(reckoned(consumables, snow_world()), "sun_cream", person_id="ann")
    assert cream.value == pytest.approx(10.8)
    assert told(cream, "body_surface").is_default


def test_sun_cream_follows_a_body_that_is_told():
    """70 kg and 1.70 m have 1.81 m² by Du Bois 1916 (printed nomogram, 0.01 m²)."""
    world = with_conditions(snow_world(), physiques=(Physique("ann", height_m=1.70),))
    surface = told(
        figure(reckoned(consumables, world), "sun_cream", person_id="ann"), "body_surface"
    )
    assert surface.value == pytest.approx(1.81, abs=0.01)
    assert not surface.is_default


def test_hand_warmers_go_by_severe_days():
    """At the camp's -15 degC and 30 km/h it feels like -26 on all three days: three pairs each."""
    found = reckoned(consumables, snow_world())
    assert figure(found, "hand_warmers", person_id="bo").value == 3


def test_a_mild_trip_still_takes_one_pair_of_warmers():
    """In still air only the summit's day is severe: one pair, and one for the insoles."""
    found = reckoned(consumables, with_conditions(snow_world(), wind_kmh=0.0))
    assert figure(found, "hand_warmers", person_id="bo").value == 1
    assert figure(found, "insole_warmers", person_id="bo").value == 1


@pytest.mark.parametrize(("summit_c", "pairs"), [(-34.0, 1), (-35.0, 2)])
def test_a_summit_day_of_minus_35_takes_a_second_pair_of_insoles(summit_c, pairs):
    """The limit is common practice, no source; -35 degC itself counts."""
    world = with_conditions(snow_world(), wind_kmh=0.0)
    found = reckoned(consumables, with_leg(world, "l3", day_temperature_c=summit_c))
    assert figure(found, "insole_warmers", person_id="ann").value == pairs


def test_insoles_are_for_the_summit_even_where_a_camp_is_colder():
    """A camp of -40 degC below a summit of -25 degC takes one pair: they are for the climb."""
    world = with_conditions(snow_world(), wind_kmh=0.0)
    found = reckoned(consumables, with_place(world, "camp", night_temperature_c=-40.0))
    assert figure(found, "insole_warmers", person_id="ann").value == 1


def test_a_cache_is_marked_by_what_can_pass_through_it():
    """Food 4 + 4 sets, 8 + 6 L, and fuel in 2 + 1 bottles, 3.6 L: 17.6 L, two poles (by hand)."""
    poles = figure(reckoned(consumables, snow_world()), "cache_poles", place_id="cache")
    assert poles.value == 2
    assert told(poles, "stock_volume").value == pytest.approx(17.6)


def test_a_big_cache_has_more_poles():
    """With sets of 40 L the stock is 169.6 + 160 L and more: three poles at 150 L each."""
    world = snow_world()
    sets = tuple(replace(one, volume_ml=40_000) for one in world.night_sets)
    poles = figure(reckoned(consumables, replace(world, night_sets=sets)), "cache_poles")
    assert told(poles, "stock_volume").value == pytest.approx(323.6)
    assert poles.value == 3


def test_boiling_takes_three_minutes_up_high():
    """The CDC asks for 3 min of rolling boil above 1981 m (Dorris et al. 2025, read)."""
    found = reckoned(consumables, snow_world())
    assert figure(found, "boil_minutes", place_id="camp").value == 3.0


@pytest.mark.parametrize(
    ("name", "packs"), [("throat lozenge", 1), ("lip balm", 1), ("lighter", 3), ("repair tape", 1)]
)
def test_refills_are_whole_packs(name, packs):
    """Six person-days take 6 of 20 lozenges, a third of a stick, three lighters (by hand)."""
    found = reckoned(consumables, snow_world())
    assert figure(found, "refill_packs", consumable=name).value == packs


def test_all_counts_of_things_sold_are_whole():
    """Whatever is bought or packed by the piece is a whole number."""
    units = {"tubes", "rolls", "bags", "poles", "packs", "tablets", "power banks", "pairs/person"}
    found = reckoned(consumables, snow_world(nights=11))
    sold = [f for f in found.figures if f.unit in units]
    assert {f.unit for f in sold} == units
    assert all(f.value == int(f.value) for f in sold)


def test_a_summit_beyond_the_chart_keeps_its_warmers():
    """A summit day of -60 degC is counted as -50, which is said, and no warmer is left out."""
    found = reckoned(consumables, with_leg(snow_world(), "l3", day_temperature_c=-60.0))
    assert figure(found, "hand_warmers", person_id="ann").value == 3
    assert figure(found, "insole_warmers", person_id="ann").value == 2
    assert "-60 degC is taken as -50 degC" in notices(found, "warmers_beyond_range")[0].message


def test_a_cold_night_alone_takes_no_warmer_on_the_way():
    """Nights of -60 degC change nothing: warmers go by the cold of the days."""
    world = with_place(snow_world(), "summit", night_temperature_c=-60.0)
    colder = figure(reckoned(consumables, world), "hand_warmers", person_id="ann")
    usual = figure(reckoned(consumables, snow_world()), "hand_warmers", person_id="ann")
    assert colder.value == usual.value


def test_sun_cream_that_protects_is_twice_as_much():
    """The dose of the protection test is told beside the half of it that people use."""
    found = reckoned(consumables, snow_world())
    used = figure(found, "sun_cream", person_id="ann").value
    assert figure(found, "sun_cream_protecting", person_id="ann").value == pytest.approx(2 * used)
    assert figure(found, "sun_cream_protecting_tubes").value == 1


def long_trip(**conditions):
    """Thirty days of two people: 7 Wh a day, 210 Wh, 262.5 Wh with the spare quarter."""
    return with_conditions(snow_world(nights=29), **conditions)


def test_a_panel_saves_batteries():
    """20 W at 63 degrees in May yield more than 7 Wh a day: 3 dark days are left, 2 batteries."""
    without = figure(reckoned(consumables, long_trip()), "batteries")
    assert without.value == 11  # 262.5 Wh / 25.9 Wh
    sunny = long_trip(panel_power_w=20.0, latitude_deg=63.0, month=5)
    with_panel = figure(reckoned(consumables, sunny), "batteries")
    assert with_panel.value == 2  # 3 x 7 x 1.25 = 26.3 Wh / 25.9 Wh
    assert told(with_panel, "panel_yield").is_default


def test_a_panel_in_the_polar_night_saves_nothing():
    """At 80 degrees in December there is no sun, and as many batteries as without a panel."""
    dark = long_trip(panel_power_w=20.0, latitude_deg=80.0, month=12)
    assert figure(reckoned(consumables, dark), "batteries").value == 11


def test_a_panel_without_latitude_is_not_counted_and_said():
    """Without a latitude nothing is taken off, and a notice asks for it."""
    found = reckoned(consumables, long_trip(panel_power_w=20.0, month=5))
    assert figure(found, "batteries").value == 11
    assert "Give both" in notices(found, "panel_not_counted")[0].message
