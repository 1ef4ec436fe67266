"""Where cook groups sleep and what they eat there, in short."""

from __future__ import annotations

from collections.abc import Mapping

SleptAt = Mapping[str, tuple[str, ...]]
"""The places where each cook group sleeps, in the order in which it first does."""

SetAt = dict[str, dict[str, str]]
"""The night set that each cook group uses at each place."""

OpenFuel = dict[tuple[str, str], str]
"""Where the fuel could be given of each (cook group, night set) that leaves it open."""
