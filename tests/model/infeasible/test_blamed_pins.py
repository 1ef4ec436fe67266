"""Pins that clash, found among many."""

from __future__ import annotations

from collections.abc import Sequence

import pytest

from solver.model.infeasible.blamed_pins import smallest_clash
from solver.model.rows import PinRow

PINS = [PinRow("pins_kept", n, n, 0, "m1", 1) for n in range(20)]


@pytest.mark.parametrize("clash", [{3}, {0, 19}, {4, 5, 6}, set(range(20))], ids=str)
def test_just_the_pins_that_clash_are_found(clash: set[int]) -> None:
    """Of twenty pins those without which the rest could be kept, in few questions."""
    asked = 0

    def refuses(pins: Sequence[PinRow]) -> bool:
        nonlocal asked
        asked += 1
        return clash <= {row.pin for row in pins}

    assert {row.pin for row in smallest_clash(PINS, refuses)} == clash
    assert asked <= 12 * len(clash)
