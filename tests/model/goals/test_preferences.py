"""Preferences in the search: counted as the checker does, fewer after it, and nothing else lost."""

from __future__ import annotations

import time
from collections import Counter
from dataclasses import replace
from functools import cache
from random import Random

import pytest

from solver.checker import check
from solver.model.assignment.build_plan import build_plan
from solver.model.assignment.draft import Draft
from solver.model.assignment.load_fractions import trip_fractions
from solver.model.assignment.read_plan import read_plan
from solver.model.formulation.build_frame import build_frame
from solver.model.formulation.frame import Frame
from solver.model.goals import mass_ascent, swaps
from solver.model.goals.mass_ascent import within_tolerance
from solver.model.goals.preferences import count_violated, meet_more
from solver.model.goals.soft_constraints import soft_constraints
from solver.model.goals.steady.deal_out import deal_out
from solver.model.work import Work
from solver.outcome import Limits, Solved
from solver.pipeline import plan
from solver.plan import Plan
from solver.problem import Hazard, Problem, Purpose, RuleSettings, Sled
from solver.progress import Watch
from solver.rulebook import RULES, RuleKind
from tests.benchmarks.instances import expedition, size_named
from tests.rules.legs import with_legs
from tests.rules.worlds import asked_alone, item, on_glacier, person, plan_of, world

STEERED = tuple(rule.rule_id for rule in RULES if rule.steered)
ANGLES_DEG = (8, 16, 22, 30, 30)
ROOM = 500
"""A tolerance that leaves room for preferences [1/10,000]."""


def steep(size: str, seed: int) -> Problem:
    """A benchmark's expedition on a glacier with angles, a traverse, a guide and rescue kit.

    The hard rules of glaciers and those on the request are other tests' business.
    """
    problem = expedition(size_named(size), seed)
    angles = zip(problem.route.legs, ANGLES_DEG, strict=False)
    legs = tuple(
        replace(leg, steepest_deg=angle, crevasse_hazard=Hazard.HIGH, traverse=angle == 16)
        for leg, angle in angles
    )
    gear = tuple(
        replace(thing, purpose=Purpose.ROPE) if "rope" in thing.item_id else thing
        for thing in problem.gear
    )
    first, *others = problem.roster
    off = {r.rule_id for r in RULES if r.on_glaciers and r.rule_id not in STEERED}
    return replace(
        problem,
        route=replace(problem.route, legs=(*legs, *problem.route.legs[len(legs) :])),
        roster=(replace(first, is_guide=True), *others),
        gear=gear,
        rules=RuleSettings(switched_off=frozenset(off)),
    )


@cache
def solved(size: str, seed: int, tolerance: int = ROOM) -> tuple[Problem, Solved]:
    """A steep expedition and its plan."""
    problem = steep(size, seed)
    watch = Watch(20.0, now=time.monotonic)
    outcome = plan(problem, Limits(wall_seconds=20.0, gap=10, tolerance=tolerance), watch)
    assert isinstance(outcome, Solved)
    return problem, outcome


@cache
def by_hand(size: str, seed: int) -> tuple[Problem, Plan]:
    """The same expedition and the plan of a search that is told to stop before it begins."""
    problem = steep(size, seed)
    watch = Watch(20.0, now=time.monotonic, wish_to_stop=lambda: True)
    outcome = plan(problem, Limits(wall_seconds=20.0), watch)
    assert isinstance(outcome, Solved)
    return problem, outcome.plan


def framed(problem: Problem, plan_: Plan) -> tuple[Frame, Draft]:
    """The frame of a problem and the draft of a plan."""
    frame = build_frame(problem)
    draft = read_plan(frame, plan_)
    assert draft is not None
    return frame, draft


def raised_limits(frame: Frame, draft: Draft) -> tuple[int, ...]:
    """How full each trip of a draft may get within the tolerance."""
    fractions = trip_fractions(frame, draft)
    return within_tolerance(fractions, peak=max(fractions), tolerance=ROOM, light=0)


def steered_remarks(problem: Problem, plan_: Plan) -> dict[str, int]:
    """How often the checker remarks each steered preference."""
    told = [remark.finding.rule_id for remark in check(problem, plan_).remarks]
    return {rule_id: told.count(rule_id) for rule_id in STEERED}


@pytest.mark.parametrize(("size", "seed"), [("small", 1), ("small", 4), ("medium", 1)])
def test_model_and_checker_count_the_same_broken_preferences(size: str, seed: int) -> None:
    """A plan by hand breaks many preferences, and both counts of them agree."""
    problem, plan_ = by_hand(size, seed)
    frame, draft = framed(problem, plan_)
    counted = count_violated(frame, draft, soft_constraints(frame))
    assert counted == sum(steered_remarks(problem, plan_).values()) > 0


def test_the_counts_agree_however_loads_are_shuffled() -> None:
    """With the loads of each trip dealt out at random, each preference is counted alike."""
    problem, plan_ = by_hand("medium", 1)
    strict = (("traverse_sled_percent", 20), ("lead_sled_percent", 20))
    kept = tuple(
        replace(one, keeper_id="m1" if one.owner_id is None else None) for one in problem.gear
    )
    problem = replace(problem, gear=kept, rules=replace(problem.rules, numbers=strict))
    frame, draft = framed(problem, plan_)
    seen: Counter[str] = Counter()
    for seed in range(6):
        chance = Random(seed)
        dealt: Counter[tuple[int, int, str]] = Counter()
        for (cargo, trip, _), units in sorted(draft.carried.items()):
            able = frame.may_carry[cargo, trip]
            for _ in range(units):
                dealt[cargo, trip, chance.choice(able[: 1 + seed]).carrier_id] += 1
        other = Draft(dict(dealt))
        told = steered_remarks(problem, build_plan(frame, other))
        assert count_violated(frame, other, soft_constraints(frame)) == sum(told.values())
        seen.update(told)
    assert {rule_id for rule_id, times in seen.items() if times} == {*STEERED}


@pytest.mark.parametrize("rule_id", STEERED)
def test_a_preference_turned_off_is_not_counted(rule_id: str) -> None:
    """Each steered preference counts in the goal by itself, and not at all when turned off."""
    problem, plan_ = by_hand("medium", 1)
    alone = frozenset({*STEERED} - {rule_id})
    off = replace(problem.rules, switched_off=problem.rules.switched_off | alone)
    problem = replace(problem, rules=off)
    frame, draft = framed(problem, plan_)
    counted = count_violated(frame, draft, soft_constraints(frame))
    assert counted == dict(check(problem, plan_).goals)["preferences"]
    assert counted == steered_remarks(problem, plan_)[rule_id]


@pytest.mark.parametrize(("size", "seed"), [("small", 1), ("medium", 1)])
def test_preferring_breaks_fewer_and_gives_nothing_up(size: str, seed: int) -> None:
    """Fewer preferences are broken; rules, rides and each trip's limit are kept."""
    problem, plan_ = by_hand(size, seed)
    frame, draft = framed(problem, plan_)
    asked = soft_constraints(frame)
    limits = raised_limits(frame, draft)
    better = meet_more(frame, draft, asked, limits=limits, watch=Watch(20.0))
    assert count_violated(frame, better, asked) < count_violated(frame, draft, asked)
    assert better.rides() == draft.rides()
    assert mass_ascent.value(frame, better) == mass_ascent.value(frame, draft)
    fractions = trip_fractions(frame, better)
    assert all(f <= limit for f, limit in zip(fractions, limits, strict=True))
    assert check(problem, build_plan(frame, better)).findings == ()


def test_fewer_swaps_break_no_more_preferences() -> None:
    """Loads dealt out for the whole expedition have fewer swaps and meet more preferences."""
    problem, plan_ = by_hand("medium", 1)
    frame, draft = framed(problem, plan_)
    asked = soft_constraints(frame)
    limits = raised_limits(frame, draft)
    repaired = meet_more(frame, draft, asked, limits=limits, watch=Watch(20.0))
    dealt = deal_out(frame, repaired, asked, limits, Work())
    assert swaps.value(frame, dealt) < swaps.value(frame, repaired) / 10
    assert count_violated(frame, dealt, asked) <= count_violated(frame, repaired, asked)
    assert check(problem, build_plan(frame, dealt)).findings == ()


def test_preferences_never_cost_the_peak() -> None:
    """With every preference turned off the peak is no lower than with all of them."""
    problem, with_them = solved("small", 1)
    soft = {r.rule_id for r in RULES if r.kind is not RuleKind.HARD}
    off = replace(problem.rules, switched_off=problem.rules.switched_off | soft)
    outcome = plan(replace(problem, rules=off), Limits(wall_seconds=20.0, gap=10))
    assert isinstance(outcome, Solved)
    assert with_them.goals[0].proven
    assert outcome.goals[0].value >= with_them.goals[0].value
    without = {goal.goal_id: goal for goal in outcome.goals}["preferences"]
    assert (without.value, without.proven) == (0, True)


def test_a_search_by_preferences_repeats_exactly() -> None:
    """Two solves with preferences to steer by give the same plan."""
    problem = steep("small", 4)
    limits = Limits(wall_seconds=6.0, gap=10)
    one, two = (plan(problem, limits, Watch(120.0, now=time.monotonic)) for _ in range(2))
    assert isinstance(one, Solved)
    assert isinstance(two, Solved)
    assert one.plan == two.plan


def test_kit_goes_to_the_ends_of_the_rope() -> None:
    """A rope and a kit of the same mass change places, so that the rope is at an end."""
    people = (person("m1"), person("m2"), person("m3"))
    gear = (
        replace(item("rope", mass_g=3_000), purpose=Purpose.ROPE),
        *(item(f"box-{n}", mass_g=3_000) for n in (1, 2)),
    )
    problem = asked_alone(on_glacier(world(people=people, gear=gear)), "guides_carry_rescue_kit")
    loads = {"m1": "box-1", "m2": "rope", "m3": "box-2"}
    frame, draft = framed(problem, plan_of(problem, loads, loads))
    asked = soft_constraints(frame)
    assert count_violated(frame, draft, asked) == 2
    better = meet_more(frame, draft, asked, limits=trip_fractions(frame, draft), watch=Watch(5.0))
    assert count_violated(frame, better, asked) == 0
    assert trip_fractions(frame, better) == trip_fractions(frame, draft)


def test_things_go_from_sled_to_pack_for_the_slope() -> None:
    """On a slope of 16 degrees all on the sled is too much: what a pack may take goes there."""
    problem = world(
        people=(person(sled_g=20_000),),
        gear=(item("brick", mass_g=1_000, count=10),),
        sleds=(Sled("s1", "m1", tare_g=2_000, mass_limit_g=90_000, volume_ml=90_000),),
        sled_leg_factors=(100, 100),
    )
    problem = with_legs(problem, steepest_deg=16.0)
    frame, draft = framed(problem, plan_of(problem, *({"m1": "| brick*10"},) * 2))
    asked = soft_constraints(frame)
    assert count_violated(frame, draft, asked) == 2
    better = meet_more(frame, draft, asked, limits=trip_fractions(frame, draft), watch=Watch(5.0))
    # Up to half and down to 45 % of 12 kg, tare included: four bricks and three stay.
    sleds = [
        sum(n for (_, t, at), n in better.carried.items() if t == trip and at != "m1")
        for trip in (0, 1)
    ]
    assert sleds == [4, 3]


def test_people_take_turns_in_being_heaviest() -> None:
    """A box goes to another person on one day, so that nobody is heaviest three days running."""
    gear = tuple(
        item(name, mass_g=mass_g, owner_id=owner)
        for name, mass_g, owner in (("own", 4_000, "m1"), ("own", 4_000, "m2"))
    )
    problem = world(
        "strip-c1 c1-c2 c2-c1-strip",
        people=(person("m1"), person("m2")),
        gear=(*gear, item("box", mass_g=4_000)),
    )
    heavy = {"m1": "m1/own box", "m2": "m2/own"}
    plan_ = plan_of(
        problem,
        heavy | {"m2": "m2/own g1/meal*4"},
        heavy | {"m2": "m2/own g1/meal*2"},
        heavy,
        heavy,
    )
    frame, draft = framed(problem, plan_)
    asked = soft_constraints(frame)
    assert count_violated(frame, draft, asked) == 1
    limits = [4_100] * 4
    better = meet_more(frame, draft, asked, limits=limits, watch=Watch(5.0))
    assert count_violated(frame, better, asked) == 0
    assert max(trip_fractions(frame, better)) <= 4_100
    assert check(problem, build_plan(frame, better)).findings == ()
