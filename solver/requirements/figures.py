"""Figures with their provenance: what was computed, by which formula, from which inputs."""

from __future__ import annotations

from dataclasses import dataclass

About = tuple[tuple[str, str | int], ...]
"""What a figure is about, as (name, value) pairs: person_id, place_id, day, step, set_id..."""


@dataclass(frozen=True, slots=True)
class Input:
    """One input of a figure; a default says where it comes from."""

    name: str
    value: float | str
    unit: str
    is_default: bool
    source: str = ""


@dataclass(frozen=True, slots=True)
class Figure:
    """One quantity that the trip needs, with formula and source.

    `status` is that of the source: read, quoted, computed, memory-unverified or practice. `low`
    and `high` are the likely range where one is known, and `most_uncertain` names the input or
    part that widens it most. `parts` are what a sum is made of, in the figure's own unit.
    """

    figure_id: str
    about: About
    value: float
    unit: str
    formula: str
    source: str
    status: str
    inputs: tuple[Input, ...] = ()
    low: float | None = None
    high: float | None = None
    most_uncertain: str = ""
    parts: tuple[tuple[str, float], ...] = ()


@dataclass(frozen=True, slots=True)
class Notice:
    """Something to be said in words about the requirements.

    `is_caution` tells a standing caution from a finding about this trip.
    """

    notice_id: str
    about: About
    message: str
    is_caution: bool = False


@dataclass(frozen=True, slots=True)
class Part:
    """What one part of the requirements comes to."""

    figures: tuple[Figure, ...] = ()
    notices: tuple[Notice, ...] = ()
