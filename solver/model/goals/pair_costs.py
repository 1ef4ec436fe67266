"""What soft constraints cost where something goes from one carrier to another.

Most inequalities of a trip weigh both carriers alike, so that few of them change: a handful for
each pair, whatever the size of the party. Only those are looked at.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from solver.model.goals.violations import ONE_VIOLATED, Violations
from solver.model.packing.trip_load import Floats, Ints


@dataclass(frozen=True, slots=True)
class PairParts:
    """Inequalities that change between C carriers, at most L of them for a pair.

    `parts` (L, C, C) are their numbers by carrier that gives and takes, in order, N where there
    is none; `constraint` (N + 1,) is each one's soft constraint, none with the last.
    """

    parts: Ints
    constraint: Ints

    def costs(
        self, violations: Violations, home: Ints, to: Ints, mass_g: Ints, equipment: Ints
    ) -> Floats:
        """What each of K ways costs more than none (K,): constraints first, then excess grams."""
        none = len(violations.value)
        total, count = np.zeros(len(home)), np.zeros(len(home))
        change = np.zeros(len(home))
        padded = np.append(violations.value, -1)
        one_g = np.append(violations.one_g, 1.0)
        positive = (violations.value > 0).astype(np.float64) @ violations.of_constraint
        positive = np.append(positive, 0.0)
        chosen = self.parts[:, home, to]
        following = np.append(chosen[1:], np.full_like(chosen[:1], none), axis=0)
        for parts, after in zip(chosen, following, strict=True):
            is_one = parts < none
            row = np.where(is_one, parts, 0)
            by_mass = violations.by_mass[row, to] - violations.by_mass[row, home]
            by_equipment = violations.by_equipment[row, to] - violations.by_equipment[row, home]
            old = padded[parts]
            new = old + np.where(is_one, by_mass * mass_g + by_equipment * equipment, 0)
            total += (np.maximum(new, 0) - np.maximum(old, 0)) / one_g[parts]
            change += (new > 0).astype(np.float64) - (old > 0)
            # Parts of one constraint follow each other: with the last it is known what it comes to.
            constraint = self.constraint[parts]
            ends = self.constraint[after] != constraint
            before = positive[constraint]
            count += np.where(ends, (before + change > 0).astype(np.float64) - (before > 0), 0.0)
            change = np.where(ends, 0.0, change)
        cost: Floats = ONE_VIOLATED * count + total
        return cost


def read_pair_parts(violations: Violations) -> PairParts:
    """Which inequalities change where something goes from one carrier to another."""
    by_mass, by_equipment = violations.by_mass, violations.by_equipment
    differ = by_mass[:, :, None] != by_mass[:, None, :]
    differ |= by_equipment[:, :, None] != by_equipment[:, None, :]
    none = len(differ)
    most = int(differ.sum(axis=0).max(initial=0))
    numbers = np.where(differ, np.arange(none)[:, None, None], none)
    parts = np.sort(numbers, axis=0)[:most]
    of_constraint = violations.of_constraint
    constraint = np.append(of_constraint.argmax(axis=1), of_constraint.shape[1])
    return PairParts(parts, constraint)
