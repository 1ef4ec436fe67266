"""Rows that keep the units of a purpose apart."""

from __future__ import annotations

from solver.model.instance.world import build_world
from solver.model.rules.purposes_apart import apart
from solver.problem import Purpose
from tests.rules.worlds import item, world


def test_each_trip_has_a_row_of_all_units_of_the_purpose() -> None:
    """Two pumps and a stove: both trips have one row with the pumps, and none without any."""
    gear = tuple(item(name, purpose=Purpose.PUMP) for name in ("p1", "p2"))
    built = build_world(world(gear=(*gear, item("stove", purpose=Purpose.STOVE))))
    rows = apart(built, "pumps_kept_apart", Purpose.PUMP)
    assert [(row.trip, len(row.cargoes), row.half) for row in rows] == [
        (0, 2, False),
        (1, 2, False),
    ]
    assert apart(built, "pumps_kept_apart", Purpose.SHELTER) == []
