"""Recomputed goals: the four figures of a plan against sums done by hand."""

from solver.checker import check
from solver.plan import Plan
from solver.problem import Problem, Sled
from tests.rules import rich_world
from tests.rules.worlds import EVERY_NIGHT, item, person, plan_of, world


def _goals(problem: Problem, plan: Plan) -> dict[str, int]:
    report = check(problem, plan)
    assert report.findings == ()
    return dict(report.goals)


def test_the_peak_is_the_largest_share_of_anybodys_own_cap_rounded_up():
    """3 kg on a cap of 7 kg are 42.86 %, more than 4 kg on a cap of 20 kg, which are 20 %."""
    problem = world(
        people=(person("m1", pack_g=7_000), person("m2")),
        gear=(item("light", mass_g=3_000), item("heavy", mass_g=4_000)),
    )
    plan = plan_of(problem, {"m1": "light", "m2": "heavy"}, {"m2": "light heavy"})
    goals = _goals(problem, plan)
    assert goals["peak_load"] == 4_286
    # 7 kg on the cap of 20 kg are 35 % on the way down.
    assert goals["hard_days"] == 0


def test_the_share_of_a_sled_is_of_the_haulers_cap_times_the_factor():
    """4 kg of pack, 10 kg of sled on half of 40 kg, and 14 kg of 50 kg: half is the most."""
    problem = world(
        people=(person(sled_g=40_000, total_g=50_000),),
        gear=(item("kit", mass_g=8_000), item("own", mass_g=4_000, owner_id="m1")),
        sleds=(Sled("s1", "m1", tare_g=2_000, mass_limit_g=60_000, volume_ml=90_000),),
        sled_leg_factors=(50, 100),
    )
    goals = _goals(problem, plan_of(problem, *({"m1": "m1/own | kit"},) * 2))
    assert goals["peak_load"] == 5_000
    # On the way down 14 kg of 50 kg, 28 %, is more than 10 kg of 40 kg.
    assert goals["hard_days"] == 0


def test_mass_times_height_counts_gross_loads_on_the_way_up_only():
    """5 kg of rope, 1 kg of water and 0.25 kg of lunch lifted 1000 m; nothing on the way down."""
    problem = world(
        people=(person(water_g=1_000, first_lunch_g=250),), gear=(item("rope", mass_g=5_000),)
    )
    goals = _goals(problem, plan_of(problem, *({"m1": "rope"},) * 2))
    assert goals["mass_ascent"] == 6_250 * 1_000


def test_swaps_count_what_one_sets_down_and_another_takes_up():
    """A rope counts 2 over night and 3 at a stop, one of two tents 1, and two bags 1 each."""
    problem = world(
        "strip-c1 c1-c2 c2-c1-strip",
        people=(person("m1"), person("m2")),
        gear=(item("rope"), item("tent", EVERY_NIGHT, count=2)),
    )
    plan = plan_of(
        problem,
        {"m1": "rope tent g1/meal*4", "m2": "tent"},
        {"m2": "rope tent*2 g1/meal*2"},
        {"m2": "rope tent*2"},
        {"m1": "rope", "m2": "tent*2"},
    )
    assert _goals(problem, plan)["swaps"] == (2 + 3) + 1 + 2


def test_repackings_count_what_a_person_moves_between_pack_and_sled():
    """A tent goes to the sled over night, a box at a stop; what m2 takes up is none.

    m3 has no sled, so that nothing of m3 could go elsewhere.
    """
    people = tuple(person(f"m{n}", sled_g=40_000, total_g=60_000) for n in (1, 2))
    problem = world(
        "strip-c1 c1-strip-c1 c1-strip",
        people=(*people, person("m3")),
        gear=(item("tent", EVERY_NIGHT), item("box"), item("can")),
        sleds=tuple(Sled(f"s{n}", f"m{n}", 0, 60_000, 90_000) for n in (1, 2)),
        sled_leg_factors=(100, 100),
    )
    plan = plan_of(
        problem,
        {"m1": "tent box", "m2": "| can g1/meal*6"},
        {"m1": "box", "m3": "can"},
        {"m1": "| box", "m2": "can"},
        {"m1": "box | tent", "m2": "can"},
    )
    # The box: pack, pack, sled at the stop, and back into the pack in the morning.
    assert _goals(problem, plan)["repackings"] == 1 + 3 + 1


def test_the_goals_of_the_rich_world_are_those_worked_out_by_hand():
    """Peak m1 from c2 to c1, 11.8 of 20 kg; up go 42, 19.6 and 27.338 kg, 1000 m each."""
    goals = _goals(rich_world.WORLD, rich_world.PLAN)
    assert goals["peak_load"] == 5_900
    assert goals["hard_days"] == 0
    assert goals["mass_ascent"] == (42_000 + 19_600 + 27_338) * 1_000
    # Three high bags on the carry, one of two stoves on the move, a can on the way down, and the
    # waste of c2 at a stop, which counts 3. Whoever takes up more bags swaps none.
    assert goals["swaps"] == 3 + 1 + 1 + 3


def test_a_load_on_a_cap_of_zero_has_a_huge_fraction_and_does_not_stop_the_check():
    """Where nothing may be carried, a load is told by its cap's rule and the goals still come."""
    problem = world(people=(person(pack_g=0),), gear=(item("kit"),))
    report = check(problem, plan_of(problem, *({"m1": "kit"},) * 2))
    assert [f.rule_id for f in report.findings] == ["pack_cap_held"] * 2
    assert dict(report.goals)["peak_load"] == 1_000 * 10_000
