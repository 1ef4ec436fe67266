"""Loads dealt out for the whole expedition: values by hand, and nothing given up for them."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from solver.checker import check
from solver.model.assignment.build_plan import build_plan
from solver.model.assignment.draft import Draft
from solver.model.assignment.load_fractions import trip_fractions
from solver.model.formulation.build_frame import build_frame
from solver.model.formulation.frame import Frame
from solver.model.goals import swaps
from solver.model.goals.mixed_loads import is_food, is_fuel, mixed_loads
from solver.model.goals.soft_constraints import soft_constraints
from solver.model.goals.steady.costs import Prices, count_swaps, mixed_cost
from solver.model.goals.steady.deal_out import deal_out
from solver.model.goals.steady.expedition import Expedition, read_expedition
from solver.model.goals.steady.paths import better_paths, heavy_first
from solver.model.goals.swap_counts import riders_of, weighted_swaps
from solver.model.work import Work
from solver.problem import Purpose
from tests.model.frames import box, cargo_of, draft_of, problem_of, two_with
from tests.rules.worlds import asked_alone, item

FRAME = two_with(box("a", 3_000), box("b", 3_000), item("o", owner_id="m1"))
SWAPPED = draft_of(FRAME, {"m1": "a m1/o", "m2": "b g1/meal*2"}, {"m1": "b m1/o", "m2": "a"})
KEPT = draft_of(FRAME, {"m1": "a m1/o", "m2": "b g1/meal*2"}, {"m1": "a m1/o", "m2": "b"})
TIGHT = trip_fractions(FRAME, KEPT)


def never() -> bool:
    """Time is never up."""
    return False


def read(frame: Frame, draft: Draft, limits: list[int]) -> Expedition:
    """A draft as the search sees it."""
    return read_expedition(frame, draft, soft_constraints(frame), limits)


def test_two_single_pieces_that_change_places_over_night_count_two_each() -> None:
    """Both boxes are one of a kind; the owner's kit never counts."""
    assert (swaps.value(FRAME, SWAPPED), swaps.value(FRAME, KEPT)) == (4, 0)
    assert "m1/o" not in riders_of(FRAME, SWAPPED)


@pytest.mark.parametrize(
    ("later", "value"), [("a*2", 0), ("a*3", 1), ("a*4", 2)], ids=["keeps", "takes 1", "takes 2"]
)
def test_whoever_takes_more_alike_things_swaps_only_what_others_give_up(
    later: str, value: int
) -> None:
    """Of four boxes alike m1 has two on the way up; m2 gives up what m1 has more."""
    frame = two_with(box("a", 100, count=4))
    left = 4 - int(later[-1])
    down = {"m1": later, **({"m2": f"a*{left}"} if left else {})}
    draft = draft_of(frame, {"m1": "a*2", "m2": "a*2 g1/meal*2"}, down)
    assert weighted_swaps(frame, draft) == value
    expedition = read(frame, draft, trip_fractions(frame, draft))
    assert count_swaps(expedition) == value


def test_model_and_checker_count_swaps_alike() -> None:
    """The plan that a draft stands for has as many by the checker."""
    for draft in (SWAPPED, KEPT):
        goals = dict(check(problem_of(FRAME), build_plan(FRAME, draft)).goals)
        assert goals["swaps"] == swaps.value(FRAME, draft)


def test_a_path_takes_a_unit_through_all_trips_where_there_is_room() -> None:
    """With room for both boxes in one pack each unit stays with one person."""
    expedition = read(FRAME, SWAPPED, [9_000, 9_000])
    assert better_paths(expedition, Prices(), never) > 0
    assert count_swaps(expedition) == 0
    assert better_paths(expedition, Prices(), never) == 0
    assert set(heavy_first(expedition)[:2]) == {"a", "b"}


def test_dealt_out_drafts_keep_every_limit_and_rule() -> None:
    """No trip is fuller than it may be, no rule is broken, and no swap is left."""
    draft = deal_out(FRAME, SWAPPED, soft_constraints(FRAME), TIGHT, Work())
    fractions = trip_fractions(FRAME, draft)
    assert all(f <= limit for f, limit in zip(fractions, TIGHT, strict=True))
    assert check(problem_of(FRAME), build_plan(FRAME, draft)).findings == ()
    assert weighted_swaps(FRAME, draft) == 0
    assert draft.rides() == SWAPPED.rides()


def test_the_same_question_is_dealt_out_the_same_way() -> None:
    """No clock and no chance takes part."""
    one, two = (deal_out(FRAME, SWAPPED, soft_constraints(FRAME), TIGHT, Work()) for _ in range(2))
    assert one == two


def test_nothing_is_dealt_out_without_work_to_do() -> None:
    """No work is left before the first window."""
    assert deal_out(FRAME, SWAPPED, soft_constraints(FRAME), TIGHT, Work(most=0)) == SWAPPED


def test_fuel_and_food_in_one_load_are_counted_and_brought_apart() -> None:
    """Gas beside bags is one mixed load; with room for it, it goes to the other pack."""
    gas = replace(item("gas", mass_g=400), purpose=Purpose.FUEL)
    frame = two_with(gas, box("a", 3_000))
    frame = build_frame(asked_alone(problem_of(frame), "fuel_apart_from_food"))
    mixed = draft_of(frame, {"m1": "a", "m2": "gas g1/meal*2"}, {"m1": "a", "m2": "gas"})
    assert is_fuel(cargo_of(frame, "gas"))
    assert is_food(cargo_of(frame, "g1/meal"))
    held = {(cargo, who): n for (cargo, trip, who), n in mixed.carried.items() if trip == 0}
    assert mixed_loads(frame, held) == 1
    best = deal_out(frame, mixed, soft_constraints(frame), [9_000, 9_000], Work())
    held = {(cargo, who): n for (cargo, trip, who), n in best.carried.items() if trip == 0}
    assert mixed_loads(frame, held) == 0
    assert weighted_swaps(frame, best) == 0


def test_the_price_of_fuel_beside_food_falls_with_the_fewer_of_the_two() -> None:
    """Three and one cost like one and three, more than none, less than two and two."""
    kinds = np.array([[0, 3, 1, 2], [5, 1, 3, 2]])
    cost = mixed_cost(kinds, Prices(broken=10.0, mixed=0.5))
    assert cost.tolist() == [0.0, 10.5, 10.5, 11.0]
