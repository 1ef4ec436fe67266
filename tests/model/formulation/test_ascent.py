"""How far up trips lead."""

from __future__ import annotations

from solver.model.formulation.ascent import ascent_m
from tests.model.frames import two_with


def test_only_the_way_up_is_ascent() -> None:
    """A camp a thousand metres above the strip is 1000 m up and nothing down."""
    frame = two_with()
    assert [ascent_m(frame, trip) for trip in (0, 1)] == [1_000, 0]
