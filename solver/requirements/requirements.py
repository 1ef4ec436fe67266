"""All that the trip needs, part by part, each figure with its formula, inputs and source."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from itertools import chain

from solver.problem import Problem, Timeline, read_timeline
from solver.requirements.air import air
from solver.requirements.consumables import consumables
from solver.requirements.elevation import elevation
from solver.requirements.energy import energy
from solver.requirements.figures import Figure, Notice, Part
from solver.requirements.food import food
from solver.requirements.fuel import fuel
from solver.requirements.travel import travel
from solver.requirements.waste import waste
from solver.requirements.water import water

PARTS: tuple[tuple[str, Callable[[Problem, Timeline], Part]], ...] = (
    ("energy", energy),
    ("food", food),
    ("travel", travel),
    ("elevation", elevation),
    ("water", water),
    ("fuel", fuel),
    ("air", air),
    ("consumables", consumables),
    ("waste", waste),
)
"""Every part by its name, in the order in which the figures are listed."""

PART_NAMES = tuple(name for name, _ in PARTS)


@dataclass(frozen=True, slots=True)
class Requirements:
    """What the trip needs, and what is to be said about it."""

    figures: tuple[Figure, ...]
    notices: tuple[Notice, ...]


def requirements(
    problem: Problem,
    part_names: tuple[str, ...] = PART_NAMES,
    *,
    timeline: Timeline | None = None,
) -> Requirements:
    """The figures and notices of a problem without faults, of all parts or of those named.

    Who has read the problem's timeline hands it on.
    """
    timeline = timeline or read_timeline(problem)
    parts = [part(problem, timeline) for name, part in PARTS if name in part_names]
    return Requirements(
        figures=tuple(chain.from_iterable(part.figures for part in parts)),
        notices=tuple(chain.from_iterable(part.notices for part in parts)),
    )
