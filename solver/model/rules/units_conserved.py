"""Nothing leaves a place where it does not stand.

For each cargo i, place p and event e: units leaving p in e ≤ units at p in state e − 1, and
units used at p in a night ≤ units there.
"""

from __future__ import annotations

from solver.model.instance.world import World
from solver.model.rows import ConserveRow


def build(world: World) -> list[ConserveRow]:
    """One row for each cargo; whoever reads it writes out the inequality above."""
    return [ConserveRow("units_conserved", cargo.index) for cargo in world.cargo]
