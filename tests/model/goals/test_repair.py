"""Moves and swaps that repair soft constraints under a trip's limit."""

from __future__ import annotations

import numpy as np
import pytest

from solver.model.formulation.frame import Frame
from solver.model.formulation.spread_slack import spread_slack
from solver.model.goals.equipment_moves import bar_and_repair, bar_equipment
from solver.model.goals.repair import repair
from solver.model.goals.repair_moves import best_move, best_swap, read_pairs
from solver.model.goals.soft_constraint import Inequality, SoftConstraint
from solver.model.goals.violations import ONE_VIOLATED, put, read_violations
from solver.model.packing.held_trip import load_trip
from solver.model.packing.trip_load import TripLoad
from solver.model.work import Work
from tests.model.frames import box, draft_of, index_of, two_with

FRAME = two_with(box("a", 6_000), box("b", 4_000), box("c", 2_000))


def _loaded(frame: Frame, **loads: str) -> TripLoad:
    draft = draft_of(frame, loads, {})
    held = {(cargo, carrier): n for (cargo, _, carrier), n in draft.carried.items()}
    return load_trip(frame, 0, held, spread_slack(frame, draft.rides())[0])


def _at_most(carrier: str, mass_g: int) -> SoftConstraint:
    return SoftConstraint("x", (Inequality(-mass_g, ((carrier, 1),)),))


def test_a_violated_constraint_costs_more_than_any_excess() -> None:
    """Of two constraints the one that lacks least comes first; a put piece changes the sums."""
    load = _loaded(FRAME, m1="a b", m2="c")
    violations = read_violations(load, [_at_most("m1", 3_000), _at_most("m1", 9_000)])
    assert violations.value.tolist() == [7_000, 1_000]
    assert violations.violated() == [1, 0]
    assert float(violations.costs(violations.value)) == 2 * ONE_VIOLATED + 8_000
    assert violations.touched(0).tolist() == [True, False]
    piece = int(np.flatnonzero(load.mass == 6_000)[0])
    put(load, violations, piece, 1)
    assert violations.value.tolist() == [1_000, -5_000]


def test_the_best_move_and_swap_keep_to_the_slack_between_carriers() -> None:
    """m1 can give m2 up to 18 kg under caps of 20 kg; any box that goes repairs."""
    load = _loaded(FRAME, m1="a b", m2="c")
    violations = read_violations(load, [_at_most("m1", 6_000)])
    pairs = read_pairs(load, violations, 10_000)
    assert pairs.slack(load)[0][0, 1] == 18_000
    touched = violations.touched(0)
    move = best_move(load, violations, pairs, touched)
    assert move is not None
    assert move[0][1] == 1
    swap = best_swap(load, violations, pairs, touched)
    assert swap is not None
    assert swap[0][0] == int(np.flatnonzero(load.mass == 6_000)[0])


@pytest.mark.parametrize(("limit", "left"), [(10_000, 0), (3_000, 1)])
def test_repair_stays_under_the_limit(limit: int, left: int) -> None:
    """m2 may get a second box only where the limit lets a pack of 20 kg hold more than 6 kg."""
    load = _loaded(FRAME, m1="a", m2="b c")
    before = load.held()
    constraint = _at_most("m1", 0)
    assert repair(load, [constraint], limit=limit) == left
    assert load.peak() <= max(limit, 3_000)
    assert (load.held() == before) is bool(left)
    assert repair(load, [], limit=limit) == 0


def test_equipment_is_barred_and_moved() -> None:
    """A box that should not be with m1 goes to m2, and nothing else is barred."""
    load = _loaded(FRAME, m1="a b", m2="c")
    cargo = index_of(FRAME, "a")
    away = SoftConstraint("x", (Inequality(0, equipment_in=("m1",)),), frozenset({cargo}))
    bar_equipment(load, [away])
    barred = ~load.able[:, 0]
    assert load.cargo[barred].tolist() == [cargo]
    load = _loaded(FRAME, m1="a b", m2="c")
    assert bar_and_repair(load, [away], 10_000, Work()) == 0
    assert load.held()[cargo, "m2"] == 1


def test_equipment_that_nobody_else_can_take_stays_violated() -> None:
    """Where both packs are barred the number is one more than there are constraints."""
    load = _loaded(FRAME, m1="a b", m2="c")
    cargo = frozenset({index_of(FRAME, "a")})
    both = [SoftConstraint("x", (Inequality(0, equipment_in=(m,)),), cargo) for m in ("m1", "m2")]
    assert bar_and_repair(load, both, 10_000, Work()) == 3
