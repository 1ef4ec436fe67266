"""Repair: moves and swaps within a trip until fewer of its soft constraints are violated.

Violated constraints are taken one after the other, the one that lacks least first. A move is
made where fewer constraints are violated after it or, the same number being violated, where
less mass is too much. No row of the trip is broken by it, and no load fraction passes the
trip's limit. All moves that touch a constraint are weighed at once as arrays; swaps are tried
only where no move helps.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np

from solver.model.goals.soft_constraints import SoftConstraint
from solver.model.packing.trip_load import Bools, Floats, Ints, TripLoad
from solver.quantities import FRACTION_GRID

_ONE_VIOLATED = 1e9
"""What a violated constraint counts beside the grams that are too much."""

_UNIT_OF_EQUIPMENT_G = 1_000
"""A piece of equipment in a wrong load counts like so many grams too much [g]."""

_NOT_AT_ALL = 1e18


@dataclass(slots=True)
class _Violations:
    """Soft constraints as arrays over N inequalities: `by_mass` and `by_equipment` (N, C), `fixed` and `one_g` (N,).

    `of_constraint` (N, W) says to which constraint each inequality belongs, `is_equipment` (P,)
    which pieces are equipment; `value` (N,) is each inequality's sum as it stands.
    """

    by_mass: Ints
    by_equipment: Ints
    one_g: Floats
    of_constraint: Floats
    is_equipment: Ints
    value: Ints

    def costs(self, value: Ints) -> Floats:
        """The cost of each of some values (..., N): violated constraints first, then excess grams."""
        over = np.maximum(value, 0)
        count = ((over > 0).astype(np.float64) @ self.of_constraint > 0).sum(axis=-1)
        cost: Floats = _ONE_VIOLATED * count + (over / self.one_g).sum(axis=-1)
        return cost

    def violated(self) -> list[int]:
        """The soft_constraints that are violated, the one that lacks least first."""
        lacks = (np.maximum(self.value, 0) / self.one_g) @ self.of_constraint
        order = np.argsort(lacks, kind="stable")
        return [int(constraint) for constraint in order if lacks[constraint] > 0]

    def touched(self, constraint: int) -> Bools:
        """Carriers whose load counts in a constraint (C,)."""
        parts = self.of_constraint[:, constraint] > 0
        touched: Bools = ((self.by_mass[parts] != 0) | (self.by_equipment[parts] != 0)).any(axis=0)
        return touched


def _never() -> bool:
    return False


def repair(
    load: TripLoad,
    of_trip: Sequence[SoftConstraint],
    *,
    limit: int,
    enough: int = 0,
    most_moves: int = 100,
    is_over: Callable[[], bool] = _never,
) -> int:
    """Move and swap until at most `enough` constraints are violated or nothing helps; the number.

    No load fraction ends above the limit [1/10,000], which the loads must keep to begin with.
    Moves that in the end did not bring the number down are taken back.
    """
    if not of_trip:
        return 0
    asked = _read(load, of_trip)
    up_to = np.minimum(load.cap, limit * load.cap // FRACTION_GRID)
    most = np.where(load.scale > 0, up_to, load.cap)
    belongs = np.zeros((len(load.carriers), len(load.cap)), dtype=bool)
    np.put_along_axis(belongs, load.rows_of, values=True, axis=1)
    belongs[:, -1] = False
    cost = float(asked.costs(asked.value))
    fewest, since = int(cost // _ONE_VIOLATED), []
    given_up: set[int] = set()
    for _ in range(most_moves):
        waiting = [constraint for constraint in asked.violated() if constraint not in given_up]
        if fewest <= enough or not waiting or is_over():
            break
        slack, touched = _slack(load, belongs, most), asked.touched(waiting[0])
        better = _best_move(load, asked, slack, touched, cost) or _best_swap(
            load, asked, slack, touched, cost
        )
        if better is None:
            given_up.add(waiting[0])
            continue
        cost, changes = better
        for piece, carrier in changes:
            since.append((piece, int(load.where[piece])))
            _put(load, asked, piece, carrier)
        if cost // _ONE_VIOLATED < fewest:
            fewest, since = int(cost // _ONE_VIOLATED), []
    for piece, carrier in reversed(since):
        _put(load, asked, piece, carrier)
    return fewest


def bar_equipment(load: TripLoad, of_trip: Sequence[SoftConstraint]) -> None:
    """Shut loads to equipment that these soft_constraints do not want there."""
    for constraint in of_trip:
        if constraint.equipment:
            is_equipment = np.isin(load.cargo, sorted(constraint.equipment))
            for part in constraint.parts:
                load.able[:, np.isin(load.carriers, part.equipment_in)] &= ~is_equipment[:, None]


PairSlack = tuple[Ints, Ints]
"""What one carrier can take from another, rows that both count in left out: (C, C) by carrier
that gives and takes [g and mL]."""

_Better = tuple[float, list[tuple[int, int]]]
"""A cost and the pieces that go, each with its new carrier."""


def _read(load: TripLoad, of_trip: Sequence[SoftConstraint]) -> _Violations:
    number = {carrier_id: at for at, carrier_id in enumerate(load.carriers)}
    parts = [
        (at, constraint, part) for at, constraint in enumerate(of_trip) for part in constraint.parts
    ]
    by_mass = np.zeros((len(parts), len(load.carriers)), dtype=np.int64)
    by_equipment = np.zeros_like(by_mass)
    of_constraint = np.zeros((len(parts), len(of_trip)))
    for row, (at, _, part) in enumerate(parts):
        of_constraint[row, at] = 1
        for carrier_id, weight in part.masses:
            by_mass[row, number[carrier_id]] = weight
        for carrier_id in part.equipment_in:
            by_equipment[row, number[carrier_id]] = 1
    equipment = frozenset(cargo for constraint in of_trip for cargo in constraint.equipment)
    is_equipment = np.array([cargo in equipment for cargo in load.cargo.tolist()], dtype=np.int64)
    mass_g = np.zeros(len(load.carriers), dtype=np.int64)
    units = np.zeros_like(mass_g)
    np.add.at(mass_g, load.where, load.mass)
    np.add.at(units, load.where, is_equipment)
    fixed = np.array([part.fixed for _, _, part in parts], dtype=np.int64)
    one_g = [
        1 / _UNIT_OF_EQUIPMENT_G if part.equipment_in else float(part.one_g) for _, _, part in parts
    ]
    value = fixed + by_mass @ mass_g + by_equipment @ units
    return _Violations(by_mass, by_equipment, np.array(one_g), of_constraint, is_equipment, value)


def _slack(load: TripLoad, belongs: Bools, most: Ints) -> PairSlack:
    spare = most - load.load
    taken = belongs[None, :, :] & ~belongs[:, None, :]
    by_mass, by_volume = (
        np.where(taken & kind, spare, 2**40).min(axis=2) for kind in (load.of_mass, ~load.of_mass)
    )
    return by_mass, by_volume


def _one_of_each(load: TripLoad) -> Ints:
    """A piece of each cargo in each carrier, of those that have a choice."""
    pieces = np.flatnonzero(load.has_choice)
    key = load.cargo[pieces] * len(load.carriers) + load.where[pieces]
    _, first = np.unique(key, return_index=True)
    chosen: Ints = pieces[np.sort(first)]
    return chosen


def _best_move(
    load: TripLoad, asked: _Violations, slack: PairSlack, touched: Bools, cost: float
) -> _Better | None:
    """The best move of one piece to or from touched carriers, (U, C) at once."""
    pieces = _one_of_each(load)
    homes, carriers = load.where[pieces], np.arange(len(load.carriers))
    allowed = load.able[pieces] & (homes[:, None] != carriers)
    allowed &= touched[homes][:, None] | touched
    for amount, spare in zip((load.mass, load.volume), slack, strict=True):
        allowed &= (amount[pieces][:, None] <= spare[homes]) | (amount[pieces] == 0)[:, None]
    for row in range(len(load.most)):
        more = load.member[row, pieces].astype(np.int64)[:, None]
        allowed &= (more == 0) | (load.held[row] + more <= load.most[row])
    at, to = np.nonzero(allowed)
    if not len(at):
        return None
    change = _change(asked, homes[at], to, load.mass[pieces[at]], asked.is_equipment[pieces[at]])
    costs = asked.costs(asked.value + change)
    best = int(costs.argmin())
    if costs[best] >= cost:
        return None
    return float(costs[best]), [(int(pieces[at[best]]), int(to[best]))]


def _best_swap(
    load: TripLoad, asked: _Violations, slack: PairSlack, touched: Bools, cost: float
) -> _Better | None:
    """The best exchange of a piece of touched carriers with another's, (U, U) at once."""
    others = _one_of_each(load)
    pieces = others[touched[load.where[others]]]
    home, there = load.where[pieces][:, None], load.where[others][None, :]
    allowed = (home != there) & load.able[pieces][:, load.where[others]]
    allowed &= load.able[others][:, load.where[pieces]].T
    for amount, spare in zip((load.mass, load.volume), slack, strict=True):
        more = amount[pieces][:, None] - amount[others]
        allowed &= (more <= 0) | (more <= spare[home, there])
        allowed &= (more >= 0) | (-more <= spare[there, home])
    for row in range(len(load.most)):
        member, held = load.member[row].astype(np.int64), load.held[row]
        more = member[pieces][:, None] - member[others]
        allowed &= (more <= 0) | (held[there] + more <= load.most[row])
        allowed &= (more >= 0) | (held[home] - more <= load.most[row])
    at, to = np.nonzero(allowed)
    if not len(at):
        return None
    one, other = pieces[at], others[to]
    change = _change(
        asked,
        load.where[one],
        load.where[other],
        load.mass[one] - load.mass[other],
        asked.is_equipment[one] - asked.is_equipment[other],
    )
    costs = asked.costs(asked.value + change)
    best = int(costs.argmin())
    if costs[best] >= cost:
        return None
    piece, partner = int(one[best]), int(other[best])
    return float(costs[best]), [
        (piece, int(load.where[partner])),
        (partner, int(load.where[piece])),
    ]


def _change(asked: _Violations, home: Ints, to: Ints, mass_g: Ints, equipment: Ints) -> Ints:
    """By how much each part changes where so much goes from one carrier to another (..., N)."""
    by_mass = (asked.by_mass[:, to] - asked.by_mass[:, home]) * mass_g
    by_equipment = (asked.by_equipment[:, to] - asked.by_equipment[:, home]) * equipment
    change: Ints = (by_mass + by_equipment).T
    return change


def _put(load: TripLoad, asked: _Violations, piece: int, carrier: int) -> None:
    home, mass_g, equipment = load.where[piece], load.mass[piece], asked.is_equipment[piece]
    asked.value += (asked.by_mass[:, carrier] - asked.by_mass[:, home]) * mass_g
    asked.value += (asked.by_equipment[:, carrier] - asked.by_equipment[:, home]) * equipment
    load.put(piece, carrier)
