"""Pieces moved and exchanged on one trip: what it counts, what it may do, and what it leaves."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from itertools import product

import numpy as np
import pytest

from solver.model.assignment.by_trip import by_trip
from solver.model.assignment.draft import Draft
from solver.model.assignment.load_fractions import trip_fractions
from solver.model.formulation.build_frame import build_frame
from solver.model.formulation.frame import Frame
from solver.model.goals.mixed_loads import mixed_loads
from solver.model.goals.soft_constraints import soft_constraints
from solver.model.goals.steady.beside import Beside, beside
from solver.model.goals.steady.broken import count_broken
from solver.model.goals.steady.costs import count_swaps
from solver.model.goals.steady.expedition import Expedition, read_expedition
from solver.model.goals.steady.pairs import deal_pairs
from solver.model.goals.steady.settle import Settled, settle
from solver.model.goals.steady.several import exchange_several
from solver.model.goals.steady.trial import keep_if_better
from solver.model.goals.steady.unmix import unmix
from solver.model.goals.steady.window import all_of
from solver.model.work import Work
from solver.problem import Purpose, RuleSettings
from tests.model.frames import DAYS, TWO, box, draft_of, problem_of, two_with
from tests.rules.worlds import MEAL, asked_alone, item, world

FRAME = two_with(box("a", 3_000), box("b", 3_000), box("c", 2_000))
SWAPPED = draft_of(FRAME, {"m1": "a c", "m2": "b g1/meal*2"}, {"m1": "b", "m2": "a c"})
KEPT = draft_of(FRAME, {"m1": "a c", "m2": "b g1/meal*2"}, {"m1": "a c", "m2": "b"})


def _read(frame: Frame, draft: Draft, limits: list[int]) -> Expedition:
    return read_expedition(frame, draft, soft_constraints(frame), limits)


def _settled(expedition: Expedition, trip: int, work: Work | None = None) -> Settled:
    return settle(expedition, trip, all_of(expedition, trip), work or Work())


def _random(seed: int) -> Beside:
    """Three units and their last row without links, among four people, with trips on both sides."""
    chance = np.random.default_rng(seed)
    count, held = chance.integers(0, 3, (4, 4)), chance.integers(0, 3, (2, 4, 4))
    weight = chance.integers(1, 4, (2, 4))
    weight[:, -1] = 0
    fewer = np.minimum(count.sum(axis=1), held.sum(axis=2))
    return Beside(np.arange(4), count, held, weight, fewer)


@pytest.mark.parametrize("change", [Beside.more, Beside.less], ids=["more", "less"])
@pytest.mark.parametrize("seed", range(5))
def test_one_unit_more_or_less_counts_as_swaps_counted_again(
    change: Callable[[Beside], np.ndarray], seed: int
) -> None:
    """For each unit and person, with the number of units that ride held fixed."""
    sides, sign = _random(seed), 1 if change is Beside.more else -1
    changes = change(sides)
    for unit, person in product(range(3), range(4)):
        if sides.count[unit, person] + sign >= 0:
            count = sides.count.copy()
            count[unit, person] += sign
            other = replace(sides, count=count)
            assert changes[unit, person] == other.swaps() - sides.swaps()


@pytest.mark.parametrize("seed", range(5))
def test_the_least_is_that_of_all_ways_to_share_a_unit_out(seed: int) -> None:
    """Every way to give each unit to four people, whatever they can carry."""
    sides, least = _random(seed), 0
    for unit in range(3):
        units = int(sides.count[unit].sum())
        ways = [way for way in product(range(units + 1), repeat=4) if sum(way) == units]
        alone = np.zeros_like(sides.weight)
        alone[:, unit] = sides.weight[:, unit]
        counts = [np.where(np.arange(4)[:, None] == unit, way, sides.count) for way in ways]
        least += min(replace(sides, weight=alone, count=count).swaps() for count in counts)
    assert sides.least() == least


def test_what_is_beside_a_trip_comes_to_the_swaps_of_the_expedition() -> None:
    """Two single pieces change hands over night, and the third too: six weighted swaps."""
    expedition = _read(FRAME, SWAPPED, [9_000, 9_000])
    for trip in (0, 1):
        assert beside(expedition, trip).swaps() == count_swaps(expedition) == 6
        assert beside(expedition, trip).least() == 0


def test_pieces_change_places_where_nobody_has_room() -> None:
    """Limits leave no room for a move, so boxes of the same mass are exchanged."""
    frame = two_with(box("a", 3_000), box("b", 3_000))
    draft = draft_of(frame, {"m1": "a", "m2": "b g1/meal*2"}, {"m1": "b", "m2": "a"})
    limits = list(trip_fractions(frame, draft))
    expedition = _read(frame, draft, limits)
    assert _settled(expedition, 1) == Settled(swaps=0, least=0, broken=0)
    assert count_swaps(expedition) == 0
    assert list(trip_fractions(frame, expedition.draft())) == limits


@pytest.mark.parametrize("room", [0, 100, 1_000, 5_000])
def test_no_trip_passes_its_limit_and_no_swap_is_more(room: int) -> None:
    """From no room at all to plenty: everybody keeps what they had the day before."""
    limits = [fraction + room for fraction in trip_fractions(FRAME, SWAPPED)]
    expedition = _read(FRAME, SWAPPED, limits)
    settled = _settled(expedition, 1)
    draft = expedition.draft()
    fits = zip(trip_fractions(FRAME, draft), limits, strict=True)
    assert all(fraction <= limit for fraction, limit in fits)
    assert settled.swaps == count_swaps(expedition) == 0
    assert settled.is_best
    assert draft == KEPT


def test_only_free_pieces_move_and_none_where_work_is_over() -> None:
    """A piece that is not free is not exchanged either."""
    expedition = _read(FRAME, SWAPPED, [9_000, 9_000])
    _settled(expedition, 1, Work(most=0))
    assert expedition.draft() == SWAPPED
    nothing = np.zeros_like(all_of(expedition, 1))
    assert settle(expedition, 1, nothing, Work()).swaps == 6
    assert expedition.draft() == SWAPPED


def test_fuel_apart_from_food_comes_before_swaps() -> None:
    """The gas leaves the load with bags, which fit nowhere else, though it is swapped for it."""
    gas = replace(item("gas", mass_g=400), purpose=Purpose.FUEL)
    sets = (replace(MEAL, gross_g=1_000),)
    problem = world(DAYS, people=TWO, gear=(gas, box("a", 3_000)), night_sets=sets)
    frame = build_frame(asked_alone(problem, "fuel_apart_from_food"))
    draft = draft_of(frame, {"m1": "a", "m2": "gas g1/meal*2"}, {"m1": "a", "m2": "gas"})
    expedition = _read(frame, draft, [1_800, 9_000])
    settled = _settled(expedition, 0)
    assert mixed_loads(frame, by_trip(frame, draft)[0]) == 1
    assert mixed_loads(frame, by_trip(frame, expedition.draft())[0]) == settled.broken == 0
    assert (settled.swaps, settled.least) == (2, 0)
    assert not settled.is_best


def test_bags_leave_the_gas_rather_than_that_it_is_swapped() -> None:
    """Where others have room for the bags, the gas stays with whoever has it."""
    gas = replace(item("gas", mass_g=400), purpose=Purpose.FUEL)
    frame = build_frame(
        asked_alone(problem_of(two_with(gas, box("a", 3_000))), "fuel_apart_from_food")
    )
    draft = draft_of(frame, {"m1": "a", "m2": "gas g1/meal*2"}, {"m1": "a", "m2": "gas"})
    expedition = _read(frame, draft, [9_000, 9_000])
    assert _settled(expedition, 0) == Settled(swaps=0, least=0, broken=0)


def test_a_load_with_a_few_cans_gives_them_all_away_at_once() -> None:
    """Two loads, each with three cans of 300 g and three bags of 450 g, and no room at all.

    One or two cans fit nowhere for bags, three do for two: then one load holds no can.
    """
    can = replace(item("can", mass_g=300, count=6), purpose=Purpose.FUEL)
    problem = world(
        "strip-c1 c1 c1 c1-strip",
        people=TWO,
        gear=(can,),
        night_sets=(replace(MEAL, gross_g=450),),
        rules=RuleSettings(switched_off=frozenset({"fuel_spread"})),
    )
    frame = build_frame(asked_alone(problem, "fuel_apart_from_food"))
    draft = draft_of(frame, dict.fromkeys(("m1", "m2"), "can*3 g1/meal*3"), {"m1": "can*6"})
    limits = list(trip_fractions(frame, draft))
    for mend in (_settled, _unmixed):
        expedition = _read(frame, draft, limits)
        assert count_broken(expedition.trips[0]) == 2
        mend(expedition, 0)
        assert count_broken(expedition.trips[0]) == 1
        assert mixed_loads(frame, by_trip(frame, expedition.draft())[0]) == 1
        assert list(trip_fractions(frame, expedition.draft())) == limits


def _unmixed(expedition: Expedition, trip: int) -> None:
    one, free = expedition.trips[trip], all_of(expedition, trip)
    assert not unmix(one, beside(expedition, trip), np.zeros_like(free), Work())
    assert unmix(one, beside(expedition, trip), free, Work())


def test_two_pieces_change_places_with_one() -> None:
    """A box of 3 kg goes for two that weigh as much together, where no two weigh the same."""
    frame = two_with(box("a", 3_000), box("b", 2_000), box("c", 1_000))
    draft = draft_of(frame, {"m1": "a", "m2": "b c g1/meal*2"}, {"m1": "b c", "m2": "a"})
    expedition = _read(frame, draft, list(trip_fractions(frame, draft)))
    free = all_of(expedition, 1)
    assert exchange_several(expedition.trips[1], beside(expedition, 1), free, Work())
    assert count_swaps(expedition) == 0
    assert trip_fractions(frame, expedition.draft())[1] == trip_fractions(frame, draft)[1]


def test_several_pieces_do_not_move_where_that_is_no_better() -> None:
    """From loads without a swap nothing is exchanged, and nothing without work."""
    kept = _read(FRAME, KEPT, [9_000, 9_000])
    assert not exchange_several(kept.trips[1], beside(kept, 1), all_of(kept, 1), Work())
    assert kept.draft() == KEPT
    swapped = _read(FRAME, SWAPPED, [9_000, 9_000])
    free = all_of(swapped, 1)
    assert not exchange_several(swapped.trips[1], beside(swapped, 1), free, Work(most=0))
    assert swapped.draft() == SWAPPED


def test_moves_that_make_nothing_better_are_undone() -> None:
    """A box goes to the other person and stays if that saves a swap, and is back if not."""
    for draft, stays in ((SWAPPED, True), (KEPT, False)):
        expedition = _read(FRAME, draft, [9_000, 9_000])
        one = expedition.trips[1]
        home = int(one.load.where[0])
        moves = [([0], home, 1 - home)]
        assert keep_if_better(one, beside(expedition, 1), moves) == stays
        assert int(one.load.where[0]) == (1 - home if stays else home)
        assert (expedition.draft() == draft) != stays


def test_a_pair_with_much_shares_it_out_in_parts() -> None:
    """With two columns at a time, what the two swap is free each time, and all is kept at last."""
    expedition = _read(FRAME, SWAPPED, [9_000, 9_000])
    deal_pairs(expedition, (0, 1), Work(), seconds=1.0, most=9, most_in_vain=9, columns=2)
    assert count_swaps(expedition) == 0
