"""Soft constraints of a trip as arrays, and what they cost as its loads stand."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from solver.model.goals.soft_constraint import SoftConstraint
from solver.model.packing.trip_load import Bools, Floats, Ints, TripLoad

ONE_VIOLATED = 1e9
"""What a violated constraint counts beside the grams that are too much."""


_UNIT_OF_EQUIPMENT_G = 1_000
"""A piece of equipment in a wrong load counts like so many grams too much [g]."""


@dataclass(slots=True)
class Violations:
    """Soft constraints as arrays over N inequalities.

    `by_mass` and `by_equipment` are (N, C), `one_g` is (N,). `of_constraint` (N, W) says to which
    constraint each inequality belongs, `is_equipment` (P,) which pieces are equipment. `value`
    (N,) is each inequality's sum as it stands; a positive one is violated.
    """

    by_mass: Ints
    by_equipment: Ints
    one_g: Floats
    of_constraint: Floats
    is_equipment: Ints
    value: Ints

    def costs(self, value: Ints) -> Floats:
        """The cost of some values (..., N): violated constraints first, then excess grams."""
        # What is positive nowhere costs nothing.
        active = np.flatnonzero((value > 0).any(axis=tuple(range(value.ndim - 1))))
        over = np.maximum(value[..., active], 0)
        of_constraint = self.of_constraint[active]
        of_constraint = of_constraint[:, of_constraint.any(axis=0)]
        count = ((over > 0).astype(np.float64) @ of_constraint > 0).sum(axis=-1)
        cost: Floats = ONE_VIOLATED * count + (over / self.one_g[active]).sum(axis=-1)
        return cost

    def violated(self) -> list[int]:
        """The soft constraints that are violated, the one that lacks least first."""
        lacks = (np.maximum(self.value, 0) / self.one_g) @ self.of_constraint
        order = np.argsort(lacks, kind="stable")
        return [int(constraint) for constraint in order if lacks[constraint] > 0]

    def touched(self, constraint: int) -> Bools:
        """Carriers whose load counts in a constraint (C,)."""
        parts = self.of_constraint[:, constraint] > 0
        touched: Bools = ((self.by_mass[parts] != 0) | (self.by_equipment[parts] != 0)).any(axis=0)
        return touched


def read_violations(load: TripLoad, of_trip: Sequence[SoftConstraint]) -> Violations:
    """The soft constraints of a trip with the loads as they stand."""
    number = {carrier_id: at for at, carrier_id in enumerate(load.carriers)}
    parts = [
        (at, constraint, part)
        for at, constraint in enumerate(of_trip)
        for part in constraint.inequalities
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
    return Violations(by_mass, by_equipment, np.array(one_g), of_constraint, is_equipment, value)


def change_of(violations: Violations, home: Ints, to: Ints, mass_g: Ints, equipment: Ints) -> Ints:
    """By how much each part changes where so much goes from one carrier to another (K, N)."""
    change = np.zeros((len(violations.value), len(home)), dtype=np.int64)
    for weights, amount in ((violations.by_mass, mass_g), (violations.by_equipment, equipment)):
        parts = np.flatnonzero(weights.any(axis=1))
        change[parts] += (weights[parts][:, to] - weights[parts][:, home]) * amount
    transposed: Ints = change.T
    return transposed


def put(load: TripLoad, violations: Violations, piece: int, carrier: int) -> None:
    """Put a piece into a carrier, and keep the sums up to date."""
    home, mass_g, equipment = load.where[piece], load.mass[piece], violations.is_equipment[piece]
    violations.value += (violations.by_mass[:, carrier] - violations.by_mass[:, home]) * mass_g
    violations.value += (
        violations.by_equipment[:, carrier] - violations.by_equipment[:, home]
    ) * equipment
    load.put(piece, carrier)
