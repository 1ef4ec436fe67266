"""Streaks: nobody alone has the day's highest load for too many travel days running.

People are compared by their largest load fraction of a day in whole per cent.
"""

from __future__ import annotations

from dataclasses import dataclass

from solver.model.assignment.draft import Draft
from solver.model.assignment.load_fractions import person_fractions
from solver.model.formulation.frame import Frame
from solver.model.goals.soft_constraint import Inequality, SoftConstraint
from solver.model.rows import sled_carrier
from solver.quantities import FRACTION_GRID

RULE = "heaviest_days_limited"

PER_CENT = FRACTION_GRID // 100


@dataclass(frozen=True, slots=True)
class Streak:
    """Travel days in a row, too many, on which one person alone has the highest load."""

    person_id: str
    days: tuple[int, ...]


def long_streaks(frame: Frame, draft: Draft) -> list[Streak]:
    """The streaks of a draft that are too long; none where nobody asks."""
    problem = frame.world.problem
    if not problem.asks(RULE):
        return []
    most = problem.rules.whole("heaviest_days")
    streaks: list[Streak] = []
    for day, percents in sorted(_percents(frame, draft).items()):
        if len(percents) < 2:
            continue
        highest = max(percents.values())
        holders = [person for person, percent in percents.items() if percent == highest]
        holder = holders[0] if len(holders) == 1 else ""
        if streaks and streaks[-1].person_id == holder:
            streaks[-1] = Streak(holder, (*streaks[-1].days, day))
        else:
            streaks.append(Streak(holder, (day,)))
    return [streak for streak in streaks if streak.person_id and len(streak.days) > most]


def next_highest(frame: Frame, draft: Draft, day: int, person_id: str) -> int:
    """The highest load of a day but for one person's [whole per cent of the cap]."""
    percents = _percents(frame, draft)[day]
    return max(percent for person, percent in percents.items() if person != person_id)


def no_more_than(frame: Frame, trip: int, person_id: str, percent: int) -> SoftConstraint:
    """The constraint that a person's fraction on a trip, in whole per cent, is at most so much."""
    most = percent * PER_CENT + PER_CENT - 1
    sleds = [s for s in frame.world.problem.sleds if s.hauler_id == person_id]
    carriers = {carrier.carrier_id for carrier in frame.carriers[trip]}
    sled_ids = [sled_carrier(s.sled_id) for s in sleds if sled_carrier(s.sled_id) in carriers]
    return SoftConstraint(
        RULE,
        tuple(
            Inequality(
                row.fixed - most * row.cap // FRACTION_GRID,
                (
                    *(((person_id, 1),) if row.in_pack else ()),
                    *((sled_id, 1) for sled_id in sled_ids if row.in_sled),
                ),
            )
            for row in frame.load_rows[trip]
            if row.person_id == person_id and row.in_fraction
        ),
    )


def _percents(frame: Frame, draft: Draft) -> dict[int, dict[str, int]]:
    """By day with travel, everybody's largest load [whole per cent of the cap]."""
    days: dict[int, dict[str, int]] = {}
    fractions = person_fractions(frame, draft)
    for trip in frame.world.timeline.trips:
        of_day = days.setdefault(trip.day, {})
        for person_id, fraction in fractions[trip.index].items():
            of_day[person_id] = max(fraction // PER_CENT, of_day.get(person_id, 0))
    return days
