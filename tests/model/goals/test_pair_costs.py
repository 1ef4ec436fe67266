"""What soft constraints cost where something goes from one carrier to another."""

from __future__ import annotations

from random import Random

import numpy as np

from solver.model.goals.pair_costs import read_pair_parts
from solver.model.goals.soft_constraint import Inequality, SoftConstraint
from solver.model.goals.violations import change_of, read_violations
from solver.model.packing.held_trip import load_trip
from tests.model.frames import box, draft_of, index_of, two_with

FRAME = two_with(box("a", 6_000), box("b", 4_000), box("c", 2_000))
CARRIERS = ("m1", "m2")


def _constraint(chance: Random) -> SoftConstraint:
    parts = tuple(
        Inequality(
            chance.randint(-9_000, 4_000),
            masses=tuple((one, chance.choice((-1, 0, 1, 2))) for one in CARRIERS),
            equipment_in=tuple(one for one in CARRIERS if chance.random() < 0.3),
            one_g=chance.choice((1, 100)),
        )
        for _ in range(chance.randint(1, 3))
    )
    return SoftConstraint("x", parts, frozenset({index_of(FRAME, "a")}))


def test_a_change_costs_what_all_inequalities_together_say() -> None:
    """Over random constraints, the parts of a pair and all parts give the same difference."""
    draft = draft_of(FRAME, {"m1": "a b", "m2": "c"}, {})
    held = {(cargo, carrier): n for (cargo, _, carrier), n in draft.carried.items()}
    load, chance, changed = load_trip(FRAME, 0, held, ()), Random(1), 0
    home, to = np.array([0, 1, 0, 1, 0]), np.array([1, 0, 1, 0, 1])
    mass_g, equipment = np.array([6_000, 2_000, -4_000, 0, 0]), np.array([1, 0, 0, 0, -1])
    for _ in range(200):
        violations = read_violations(load, [_constraint(chance) for _ in range(4)])
        pairs = read_pair_parts(violations)
        change = change_of(violations, home, to, mass_g, equipment)
        before = violations.costs(violations.value)
        expected = violations.costs(violations.value + change) - before
        found = pairs.costs(violations, home, to, mass_g, equipment)
        assert np.allclose(found, expected, rtol=0, atol=1e-3)
        changed += int((found != 0).sum())
    assert changed > 300
