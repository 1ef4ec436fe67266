"""A soft constraint: sums over the packs and sleds of one trip that should not be positive.

The search counts the soft constraints that are violated and brings their number down. The
checker has its own reading of the same preferences and recounts.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from solver.model.assignment.draft import Held
from solver.model.formulation.frame import Frame


@dataclass(frozen=True, slots=True)
class Inequality:
    """`fixed` + Σ weight × mass in a carrier [g] + Σ units of equipment in a carrier ≤ 0.

    `one_g` is by how much the sum falls where a gram too much is gone.
    """

    fixed: int
    masses: tuple[tuple[str, int], ...] = ()
    equipment_in: tuple[str, ...] = ()
    one_g: int = 1


@dataclass(frozen=True, slots=True)
class SoftConstraint:
    """One preference on one trip, kept where all its inequalities hold; `equipment` are cargoes."""

    rule_id: str
    inequalities: tuple[Inequality, ...]
    equipment: frozenset[int] = frozenset()


SoftConstraints = Sequence[Sequence[SoftConstraint]]
"""The soft constraints of each trip."""


def violated(frame: Frame, trip: int, held: Held, of_trip: Sequence[SoftConstraint]) -> int:
    """How many soft constraints of a trip its loads violate [1]."""
    mass_g: dict[str, int] = {}
    for (cargo, carrier_id), units in held.items():
        more_g = units * frame.weight(cargo, trip, of_mass=True)
        mass_g[carrier_id] = mass_g.get(carrier_id, 0) + more_g
    return sum(
        any(_sum(one, constraint.equipment, mass_g, held) > 0 for one in constraint.inequalities)
        for constraint in of_trip
    )


def _sum(part: Inequality, equipment: frozenset[int], mass_g: dict[str, int], held: Held) -> int:
    total = part.fixed + sum(weight * mass_g.get(at, 0) for at, weight in part.masses)
    if part.equipment_in:
        total += sum(
            n for (cargo, at), n in held.items() if cargo in equipment and at in part.equipment_in
        )
    return total
