"""Bodies, their days part by part, what moving costs them and how hard it is."""

from dataclasses import replace

import pytest

from solver.problem import Conditions, LegMode, Physique, Sex, read_timeline
from solver.requirements.body import inactive_kcal_per_day, read_body, resting_kcal_per_day
from solver.requirements.day_parts import MOST_KCAL, whole_day
from solver.requirements.energy_figures import at_home, beyond_range, of_day, without_time
from solver.requirements.exertion import Exertion, exertion
from solver.requirements.ground import Ground, is_return, read_ground
from solver.requirements.loads import Loads, planning_loads
from solver.requirements.moving import Stretch, moving_cost
from solver.requirements.pace import pace, too_fast
from solver.requirements.snow import Snow
from solver.requirements.surroundings import as_given
from solver.requirements.travel import Hours
from tests.requirements.walking_world import PHYSIQUE, Walk, leg

WALK = Walk(leg(distance_m=5_000, ascent_m=1_008, descent_m=0), with_sled=True)
PROBLEM = WALK.problem()
OUT, BACK = read_timeline(PROBLEM).trips
ANN = PROBLEM.roster[0]
FLAT = Stretch(3.0, 6.0, 0.0, 0.0, 20.0, 0.0, 0.1, 1.0, 0.0)


def cost(stretch):
    """What the stretch costs 80 kg with 75 kcal/h at rest."""
    return moving_cost(stretch, body_mass_kg=80.0, resting_kcal_per_hour=75.0)


def test_a_given_body_rests_by_mifflins_equation():
    """A man of 80 kg, 180 cm and 35 years: 800 + 1125 - 175 + 5 kcal a day."""
    assert resting_kcal_per_day(read_body(PROBLEM, ANN)) == pytest.approx(1_755)


def test_without_a_sex_the_higher_of_both_holds():
    """A body without its sex rests and lives as the man's, whose need is the higher."""
    physique = replace(PHYSIQUE, sex=None)
    neither = read_body(replace(PROBLEM, conditions=Conditions(physiques=(physique,))), ANN)
    man = read_body(PROBLEM, ANN)
    assert neither.sex.is_default
    assert resting_kcal_per_day(neither) == resting_kcal_per_day(man)
    assert inactive_kcal_per_day(neither) >= inactive_kcal_per_day(man) > 0


def test_a_body_beyond_the_range_is_held_and_says_so():
    """30 kg and 85 years are taken as the ends of the range, 40 kg and 78 years."""
    physique = Physique("ann", age_years=85, height_m=1.80, sex=Sex.MALE)
    problem = replace(PROBLEM, conditions=Conditions(physiques=(physique,)))
    body = read_body(problem, replace(ANN, body_mass_g=30_000))
    assert (body.mass.value, body.height.value, body.age.value) == (40, 1.80, 78)
    assert body.held == (
        "body mass of 30 kg is taken as 40",
        "age of 85 years is taken as 78",
    )


def test_a_day_has_24_hours_whatever_fills_it():
    """A day at rest costs 8 h asleep, 13.5 h awake, 2.5 h of work and a ninth for digestion."""
    day = whole_day(
        resting_kcal_per_hour=70,
        body_mass_kg=80,
        travel_h=0,
        camp_work_h=2.5,
        travel_kcal=0,
        sled_kcal=0,
    )
    asleep, awake = 8 * 0.95 * 70, 13.5 * 1.4 * 70
    assert day.part("asleep").kcal == pytest.approx(asleep)
    assert day.part("awake").kcal == pytest.approx(awake)
    assert day.part("camp_work").kcal == pytest.approx(2.5 * 314, rel=1e-3)
    assert day.part("digestion").kcal == pytest.approx((asleep + awake) / 9)
    assert day.kcal == pytest.approx(sum(part.kcal for part in day.parts))
    assert day.most_uncertain == "camp_work"


def test_no_day_costs_more_than_anybody_was_measured_to_spend():
    """Travel is cut so that the whole day is at most the limit, and on the way all day is legal."""
    day = whole_day(
        resting_kcal_per_hour=70,
        body_mass_kg=80,
        travel_h=30,
        camp_work_h=4,
        travel_kcal=20_000,
        sled_kcal=5_000,
    )
    assert day.kcal == pytest.approx(MOST_KCAL)
    assert day.part("asleep").kcal == day.part("camp_work").kcal == 0
    assert day.part("travel").kcal == pytest.approx(4 * day.part("sled").kcal)


def test_a_heavier_pack_steeper_ground_and_deeper_snow_cost_more():
    """Each of the three by itself raises the energy of walking; no sled costs nothing."""
    base = cost(FLAT)
    assert base.sled_kcal == 0
    for harder in (
        replace(FLAT, pack_kg=30.0),
        replace(FLAT, ascent_m=400.0),
        replace(FLAT, sinkage_cm=10.0),
    ):
        assert cost(harder).walking_kcal > base.walking_kcal + 10


def test_a_sled_costs_by_its_mass_on_the_flat():
    """Twice the sled is twice the work, and walking costs the same with it."""
    light, heavy = cost(replace(FLAT, sled_kg=25.0)), cost(replace(FLAT, sled_kg=50.0))
    assert heavy.sled_kcal == pytest.approx(2 * light.sled_kcal)
    assert light.walking_kcal == heavy.walking_kcal == cost(FLAT).walking_kcal


def test_what_lies_beyond_an_equation_is_held_and_named():
    """A slope of 100 % and a sinkage of 60 cm are taken at the ends of their ranges."""
    held = cost(replace(FLAT, distance_km=1.0, ascent_m=1_000.0, sinkage_cm=60.0)).held
    assert "a slope of 100 % is taken as 45 %" in held
    assert "sinkage of 60 cm is taken as 37 cm" in held
    assert cost(FLAT).held == ()


def test_loads_are_shares_of_what_may_be_carried():
    """80 % of pack and sled on the way out, 30 % and an empty sled on the way back of a carry."""
    out = planning_loads(PROBLEM, ANN, OUT, returning=False)
    back = planning_loads(PROBLEM, ANN, BACK, returning=True)
    assert (out.pack.value, out.sled.value) == (25.0, 40.0)
    assert (back.pack.value, back.sled.value) == (9.375, 4.0)
    assert all(one.is_default and one.source for one in (out.pack, out.sled, back.pack, back.sled))


def test_a_load_limit_lowers_the_planned_pack_and_sled():
    """With 20 kg in all, 16 kg are in the pack and the sled has the rest or its own mass."""
    weak = planning_loads(PROBLEM, replace(ANN, load_limit_g=20_000), OUT, returning=False)
    assert weak.pack.value == 16.0
    assert weak.sled.value == 4.0


def test_a_summit_day_is_light():
    """On a summit leg people carry 30 % of their cap, and nobody hauls."""
    problem = Walk(leg(LegMode.SUMMIT)).problem()
    trip = read_timeline(problem).trips[0]
    loads = planning_loads(problem, problem.roster[0], trip, returning=False)
    assert (loads.pack.value, loads.sled) == (9.375, None)


def test_given_ground_is_read_as_given():
    """Distance, ascent and hours of the leg come back, with the grade that they make."""
    hours = Hours(4.0, "as given", "leg", "computed", (as_given("hours", 4.0, "h"),))
    ground = read_ground(PROBLEM, OUT, hours)
    assert (ground.distance_km, ground.ascent_m, ground.descent_m) == (5.0, 1_008, 0)
    assert (ground.hours, ground.distance_given, ground.notice) == (4.0, True, "")
    (grade,) = (one for one in ground.inputs if one.name == "grade")
    assert grade.value == pytest.approx(20.16)


def test_unknown_ground_is_assumed_from_the_climb():
    """1008 m at 9 % are 11.2 km, which take 11.2 / 2.5 + 1008 / 200 h, and the notice says so."""
    problem = Walk(leg()).problem()
    ground = read_ground(problem, read_timeline(problem).trips[0], None)
    assert ground.hours == pytest.approx(11.2 / 2.5 + 1_008 / 200)
    assert ground.distance_km == pytest.approx(11.2)
    assert not ground.distance_given
    assert ground.notice == "its time is taken as 9.5 h"


def test_a_way_back_is_of_a_leg_climbed_on_the_same_day():
    """The homeward trip is a return only on the day that also goes out over its leg."""
    assert is_return(BACK, (OUT, BACK))
    assert not is_return(BACK, (BACK,))
    assert not is_return(OUT, (OUT, BACK))


def effort(*, distance_given):
    """Ann's effort on 5 km of flat ground with 20 kg and a sled of 40 kg."""
    return exertion(
        Ground(5.0, 0.0, 0.0, 2.5, distance_given, ()),
        Snow(as_given("sinkage", 0.0, "cm"), as_given("sled_friction", 0.1, "")),
        Loads(as_given("pack_load", 20.0, "kg"), as_given("sled_mass", 40.0, "kg")),
        "_1",
        body_mass_kg=80.0,
        resting_kcal_per_hour=75.0,
    )


def test_an_effort_is_what_its_stretch_costs():
    """A trip costs as much as its stretch, and its inputs carry the step in their names."""
    found = effort(distance_given=True)
    same = cost(Stretch(2.5, 5.0, 0.0, 0.0, 20.0, 40.0, 0.1, 1.0, 0.0))
    assert (found.walking_kcal, found.sled_kcal) == (same.walking_kcal, same.sled_kcal)
    assert {one.name for one in found.inputs} >= {"pack_load_1", "sled_mass_1", "sled_friction_1"}
    assert found.off_kcal == 0


def test_an_assumed_distance_widens_the_range():
    """Half or twice the distance makes an error that a given distance does not have."""
    assert effort(distance_given=False).off_kcal > effort(distance_given=True).off_kcal == 0


def test_a_pace_is_judged_for_an_hour_of_work_or_more():
    """Less than an hour, or no work, has no pace; more work in the same time is a greater share."""
    body = read_body(PROBLEM, ANN)

    def of(hours, kcal):
        return pace(PROBLEM, OUT, body, Exertion(hours, kcal, 0, 0, ()), "ann", resting=75.0)

    assert of(0.9, 900.0) is None
    assert of(3.0, 0.0) is None
    easy, hard = of(3.0, 900.0), of(3.0, 1_800.0)
    assert hard.share == pytest.approx(2 * easy.share)
    assert hard.enough_h > easy.enough_h
    words = too_fast(OUT, hard).message
    assert f"Give it {hard.enough_h:.1f} h" in words


def test_energy_at_home_has_its_source_and_inputs():
    """The two figures of a body are its equations' values with everything that went in."""
    body = read_body(PROBLEM, ANN)
    resting, total = at_home("ann", body)
    assert (resting.figure_id, resting.value) == ("resting_energy", resting_kcal_per_day(body))
    assert (total.figure_id, total.value) == ("total_energy", inactive_kcal_per_day(body))
    assert resting.inputs == body.inputs
    assert total.inputs[-1].name == "activity"


def test_a_day_of_rest_has_one_figure_and_a_day_with_a_sled_three():
    """Walking and sled have figures of their own only on days that have them."""
    still = {"resting_kcal_per_hour": 70, "body_mass_kg": 80, "camp_work_h": 2.5}
    rest = whole_day(**still, travel_h=0, travel_kcal=0, sled_kcal=0)
    haul = whole_day(**still, travel_h=5, travel_kcal=1_500, sled_kcal=400)
    assert [f.figure_id for f in of_day("ann", 1, rest, (), ())] == ["day_energy"]
    found = of_day("ann", 1, haul, (effort(distance_given=True),), ())
    assert [f.figure_id for f in found] == ["walking_energy", "sled_energy", "day_energy"]
    day = found[-1]
    assert day.low < day.value < day.high
    assert sum(kcal for _, kcal in day.parts) == pytest.approx(day.value)


def test_what_was_held_or_assumed_is_a_notice():
    """Notices repeat the held values and the assumed time word for word."""
    held = beyond_range((), ("a is taken as b", "c is taken as d"))
    assert "a is taken as b; c is taken as d." in held.message
    assert "so 3 h is used" in without_time((), "3 h is used").message
