"""Loads: a plan's loads set beside the trips of the calendar, and weighed anew."""

from collections import Counter
from dataclasses import replace

from solver.checker.ledger.loads import NO_NAME, Scales, match_trips
from solver.plan import Load, Stowed
from solver.problem import Sled
from tests.checker.replaying import replay_of
from tests.rules.worlds import item, person, plan_of, world

TWO = (person("m1", water_g=500), person("m2", rope_team_id="r2"))


def test_scales_leave_out_what_they_do_not_know():
    """Unknown units and counts below one are not counted; what is not yet made weighs nothing."""
    scales = Scales({"rope": (1_000, 2_000)}, {"rope", "sack"})
    stowed = (
        Stowed("rope", 2, 0, 0),
        Stowed("ghost", 1, 9, 9),
        Stowed("rope", -1, 0, 0),
        Stowed("sack", 1, 9, 9),
    )
    carrier = scales.carrier("m1", None, stowed)
    assert carrier.counts == Counter({"rope": 2, "sack": 1})
    assert (carrier.mass_g, carrier.volume_ml) == (2_000, 4_000)
    assert carrier.name == "pack of m1"


def test_a_burden_is_pack_water_and_sled_with_its_tare():
    """Gross masses add the water to the pack and the tare to the sled."""
    sled = Sled("pulk", "m1", tare_g=5_000, mass_limit_g=50_000, volume_ml=100_000)
    gear = (item("rope"), item("tent", mass_g=3_000))
    problem = world(people=TWO[:1], gear=gear, sleds=(sled,), sled_leg_factors=(100, 100))
    record = replay_of(problem, {"m1": "rope|tent"}, {}).records[0]
    (burden,) = record.burdens
    assert (burden.pack_g, burden.sled_g) == (1_500, 8_000)
    assert record.counts == Counter({"rope": 1, "tent": 1})
    assert [carrier.name for carrier in record.carriers] == ["pack of m1", "sled pulk of m1"]


def test_a_load_of_somebody_outside_the_party_moves_all_the_same():
    """What the plan gives to a stranger is among the carriers, on a sled without a name too."""
    problem = world(gear=(item("rope", count=2),))
    plan = plan_of(problem, {}, {})
    up, down = plan.trips
    stranger = Load("who", 0, 0, (Stowed("rope", 1, 0, 0),), None, (Stowed("rope", 1, 0, 0),))
    plan = replace(plan, trips=(replace(up, loads=(stranger,)), down))
    record = replay_of(problem, {}, {})
    assert record.records[0].carriers == ()
    found, _ = match_trips(record.facts.timeline, plan)
    assert found[0].loads == (stranger,)
    assert NO_NAME == "without a name"


def test_of_two_parties_on_one_step_each_gets_the_loads_of_its_members():
    """Loads of the same places and step go to the trip that has more of their people."""
    problem = world("strip-c1-strip|strip-c1-strip", people=TWO)
    plan = plan_of(problem, {}, {}, {}, {})
    turned = replace(plan, trips=(plan.trips[1], plan.trips[0], *plan.trips[2:]))
    timeline = replay_of(problem, {}, {}, {}, {}).facts.timeline
    found, left = match_trips(timeline, turned)
    assert [load.person_id for load in found[0].loads] == ["m1"]
    assert [load.person_id for load in found[1].loads] == ["m2"]
    assert left == ()


def test_loads_of_no_trip_are_given_back():
    """Loads of a day that has no such trip are left over."""
    problem = world()
    plan = plan_of(problem, {}, {})
    astray = replace(plan.trips[0], day=9)
    timeline = replay_of(problem, {}, {}).facts.timeline
    found, left = match_trips(timeline, replace(plan, trips=(*plan.trips, astray)))
    assert sorted(found) == [0, 1]
    assert left == (astray,)
