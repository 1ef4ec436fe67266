"""Everybody's largest load of each day as a share of its cap: a grid of people and days."""

from __future__ import annotations

from dataclasses import dataclass

from service.pages.facts import PlanFacts

_STEPS = (0.5, 0.7, 0.8, 0.9)
"""Shares of a cap at which a cell gets the next shade."""


@dataclass(frozen=True, slots=True)
class Cell:
    """A day of a person: the share in per cent, its shade from 0 to 4, whether it is the peak."""

    words: str
    shade: int | None
    is_peak: bool


@dataclass(frozen=True, slots=True)
class LoadGrid:
    """A row of cells for each person, a cell for each day."""

    days: tuple[int, ...]
    rows: tuple[tuple[str, tuple[Cell, ...]], ...]


def load_grid(facts: PlanFacts) -> LoadGrid:
    """The grid of a solved plan, people in the order of the roster."""
    days = tuple(day["day"] for day in facts.plan["days"])
    peak = facts.outcome["peak"]
    at_peak = None if peak is None else (peak["person_id"], peak["day"])
    rows = []
    for person in facts.people:
        shares: dict[int, float] = {}
        for trip, load in facts.loads_of(person):
            shares[trip["day"]] = max(shares.get(trip["day"], 0.0), load["load_fraction"])
        cells = tuple(_cell(shares.get(day), is_peak=(person, day) == at_peak) for day in days)
        rows.append((facts.person(person), cells))
    return LoadGrid(days, tuple(rows))


def _cell(share: float | None, *, is_peak: bool) -> Cell:
    if share is None:
        return Cell("", None, is_peak=False)
    return Cell(f"{100 * share:.0f}", sum(share > step for step in _STEPS), is_peak)
