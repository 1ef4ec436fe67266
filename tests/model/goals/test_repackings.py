"""Repackings: what a person moves between pack and sled, and how units stay where they were."""

from __future__ import annotations

from collections import Counter

import numpy as np
import pytest

from solver.checker import check
from solver.model.assignment.build_plan import build_plan
from solver.model.assignment.draft import Draft
from solver.model.formulation.build_frame import build_frame
from solver.model.formulation.frame import Frame
from solver.model.goals import repackings
from solver.model.goals.goal import SearchState, SearchTools
from solver.model.goals.repacking_counts import repacking_weight, weighted_repackings
from solver.model.goals.soft_constraints import soft_constraints
from solver.model.goals.steady.expedition import read_expedition
from solver.model.goals.steady.stowing import stow_alike
from solver.model.solvers.relaxation import build_relaxation
from solver.model.solvers.relaxed_plans import relaxed_plans
from solver.outcome import Limits
from solver.problem import Sled
from solver.progress import Watch
from tests.model.frames import box, draft_of
from tests.rules.worlds import person, world


def _frame(pack_g: int = 20_000) -> Frame:
    """Two haulers who go up to c1, down to the strip and back, and down."""
    people = tuple(person(f"m{n}", pack_g=pack_g, sled_g=40_000) for n in (1, 2))
    return build_frame(
        world(
            "strip-c1 c1-strip-c1 c1-strip",
            people=people,
            gear=(box("a", 5_000), box("b", 5_000)),
            sleds=tuple(Sled(f"s{n}", f"m{n}", 0, 60_000, 90_000) for n in (1, 2)),
            sled_leg_factors=(100, 100),
        )
    )


def _on(frame: Frame, *trips: str) -> Draft:
    """Each trip written as carriers with what is in them: `m1 a, s1 b`."""
    sled = {"s1": "sled/s1", "s2": "sled/s2"}
    loads = []
    for text in trips:
        parts = [part.split() for part in text.split(",") if part.strip()]
        loads.append({sled.get(who, who): " ".join(units) for who, *units in parts})
    return draft_of(frame, *loads)


FRAME = _frame()
MOVED = _on(FRAME, "m1 a, s2 b, m2 g1/meal*4", "", "", "s1 a, m2 b")
ALIKE = _on(FRAME, "m1 a, s2 b, m2 g1/meal*4", "", "", "m1 a, s2 b")


def _state(draft: Draft) -> SearchState:
    return SearchState(draft, {}, trip_limits=(10_000,) * len(FRAME.carriers))


def _tools(frame: Frame = FRAME) -> SearchTools:
    relaxation, watch = build_relaxation(frame), Watch(20.0)
    found = relaxed_plans(relaxation, Limits(), watch, start=None, peak=None)
    return SearchTools(relaxation, found, Limits(), watch)


@pytest.mark.parametrize(("draft", "value"), [(MOVED, 2), (ALIKE, 0)])
def test_model_and_checker_count_repackings_alike(draft: Draft, value: int) -> None:
    """Two boxes that change between pack and sled between days count one each."""
    assert repackings.value(FRAME, draft) == weighted_repackings(FRAME, draft) == value
    goals = dict(check(FRAME.world.problem, build_plan(FRAME, draft)).goals)
    assert goals["repackings"] == value
    assert (repacking_weight(2, 2), repacking_weight(2, 3)) == (3, 1)


def test_units_stay_where_they_were() -> None:
    """After the last goal nothing is moved, and everybody has what they had before."""
    after = repackings.improve(_state(MOVED), _tools())
    assert repackings.value(FRAME, after.draft) == 0 == repackings.bound(after)
    assert after.draft.rides() == MOVED.rides()
    assert repackings.improve(_state(ALIKE), _tools()) == _state(ALIKE)


def test_a_pack_without_room_leaves_a_repacking() -> None:
    """With limits that are as full as the loads are now, no box can go elsewhere."""
    limits = [0] * len(FRAME.carriers)
    expedition = read_expedition(FRAME, MOVED, soft_constraints(FRAME), limits)
    stow_alike(FRAME, expedition, lambda: False)
    assert expedition.draft() == MOVED


def test_somebody_who_hauls_no_sled_on_a_trip_moves_nothing() -> None:
    """On a leg without sleds all is in the packs, and that counts nothing."""
    people = (person("m1", sled_g=40_000),)
    frame = build_frame(
        world(
            "strip-c1-c2 c2-c1-strip",
            people=people,
            gear=(box("a", 5_000),),
            sleds=(Sled("s1", "m1", 0, 60_000, 90_000),),
            sled_leg_factors=(100, 100),
        )
    )
    draft = _on(frame, "s1 a, m1 g1/meal*2", "m1 a g1/meal*2", "m1 a", "s1 a")
    assert repackings.value(frame, draft) == 0


@pytest.mark.parametrize("seed", range(6))
def test_no_trip_gets_harder_for_whoever_has_the_least_cap(seed: int) -> None:
    """Boxes anywhere at first: what the weaker one moves less makes no trip of theirs fuller."""
    chance = np.random.default_rng(seed)
    people = tuple(
        person(f"m{n}", pack_g=pack_g, sled_g=30_000) for n, pack_g in ((1, 20_000), (2, 12_000))
    )
    gear = tuple(box(f"b{n}", int(chance.integers(1_000, 3_000))) for n in range(6))
    sleds = tuple(Sled(f"s{n}", f"m{n}", 0, 60_000, 90_000) for n in (1, 2))
    days = "strip-c1 c1-strip-c1 c1-strip"
    frame = build_frame(
        world(days, people=people, gear=gear, sleds=sleds, sled_leg_factors=(100, 100))
    )
    carried: Counter[tuple[int, int, str]] = Counter()
    for cargo, trips in enumerate(frame.allowed_trips):
        for trip in (0, 3) if frame.world.cargo[cargo].item is not None else trips[:1]:
            choice = [c for c in frame.may_carry[cargo, trip] if c.person_id == "m2"]
            carrier = choice[chance.integers(len(choice))].carrier_id
            carried[cargo, trip, carrier] += frame.world.cargo[cargo].count
    before = Draft(dict(carried))
    limits = (10_000,) * len(frame.carriers)
    after = repackings.improve(SearchState(before, {}, trip_limits=limits), _tools(frame)).draft
    assert repackings.value(frame, after) < repackings.value(frame, before)
    assert all(
        now <= once for now, once in zip(_weaker(frame, after), _weaker(frame, before), strict=True)
    )


def _weaker(frame: Frame, draft: Draft) -> list[float]:
    """The fullest of the second person's rows on each trip [1/10,000]."""
    trips = read_expedition(frame, draft, soft_constraints(frame), (10_000,) * 4).trips
    return [float(one.load.levels()[one.load.rows_of[one.on_weak]].max()) for one in trips]
