"""Loads that cannot keep to their caps: single persons first, then parties, trip by trip.

Each sentence is one question asked of the relaxation with divisible loads, in which only the
rows in question count and every other cap may be passed for nothing. What is still over is so
whatever the others carry, and that is what may be called a necessity. Amounts of the one optimum
in which all rows count together are called "by one way of sharing out".
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass, replace
from math import ceil

from solver.model.formulation.frame import Frame
from solver.model.infeasible.overload_words import (
    Overload,
    tell_party,
    tell_person,
    tell_together,
)
from solver.model.rows import LoadRow
from solver.model.solvers.relaxation_columns import Relaxation
from solver.model.solvers.relaxation_refusals import least_excess
from solver.model.solvers.relaxation_rows import build_relaxation
from solver.outcome import Conflict

_MOST_ROWS = 8
"""Of one person or one party, the trips that are asked one by one, worst first."""

_LEAST = 5e-4
"""What is over by less is rounding of the linear solver [kg, L]."""

Missing = list[tuple[LoadRow, float]]
"""Rows with what is over their caps [kg, L]."""


@dataclass(frozen=True, slots=True)
class _Questions:
    """The relaxation in which every load may pass its cap, and the time for one question [s]."""

    relaxation: Relaxation
    seconds: float

    def over(self, rows: Iterable[LoadRow]) -> Missing:
        """By how much these rows must be passed, when no others count; [] where they need not."""
        asked = set(rows)
        found = least_excess(self.relaxation, seconds=self.seconds, counts=asked.__contains__)
        return [(row, amount) for row, amount in found or () if amount > _LEAST]


def tell_overloads(frame: Frame, missing: Missing, *, seconds: float) -> tuple[Conflict, ...]:
    """One conflict for each person, then for each kind of cap of the party; never empty.

    `missing` is the joint optimum: every row that must be passed by itself is part of it.
    """
    ask = _Questions(build_relaxation(frame, with_excess=True, steady=True), seconds)
    people: list[Overload] = []
    for person_id in dict.fromkeys(row.person_id for row, _ in missing):
        people += _of_person(frame, ask, person_id, missing)
    conflicts = [tell_person(frame, overload) for overload in people]
    if people:
        frame = _raised(frame, people)
        relaxation = build_relaxation(frame, with_excess=True, steady=True)
        missing = least_excess(relaxation, seconds=seconds) or []
        ask = _Questions(relaxation, seconds)
    missing = [(row, amount) for row, amount in missing if amount > _LEAST]
    parties = _of_parties(frame, ask, missing)
    conflicts += [tell_party(frame, overload) for overload in parties]
    if missing and not parties:
        conflicts.append(tell_together(frame, missing))
    return tuple(conflicts) or (tell_together(frame, missing),)


def _of_person(frame: Frame, ask: _Questions, person_id: str, missing: Missing) -> list[Overload]:
    """What one person's own caps cannot hold, whatever the others carry: mass, then volume."""
    found = []
    for of_mass in (True, False):
        rows = [r for r in _all_rows(frame) if r.person_id == person_id and r.of_mass is of_mass]
        together = ask.over(rows)
        if not together:
            continue
        near = sorted(missing, key=lambda pair: -pair[1])
        named = [row for row, _ in near if row.person_id == person_id and row.of_mass is of_mass]
        alone = _one_by_one(ask, [[row] for row in dict.fromkeys((*named, *_firsts(together)))])
        found.append(Overload(person_id, tuple(alone or together), alone=bool(alone)))
    return found


def _of_parties(frame: Frame, ask: _Questions, missing: Missing) -> list[Overload]:
    """Caps of a party that are too small on a single trip, however all is shared out."""
    amounts: dict[tuple[int, str], float] = defaultdict(float)
    for row, amount in missing:
        amounts[row.trip, row.rule_id] += amount
    by_rule: dict[str, list[list[LoadRow]]] = defaultdict(list)
    for trip, rule_id in sorted(amounts, key=lambda key: -amounts[key]):
        by_rule[rule_id].append([r for r in frame.load_rows[trip] if r.rule_id == rule_id])
    found = []
    for trips in by_rule.values():
        alone = _one_by_one(ask, trips)
        if alone:
            together = _together(ask, [rows for rows in trips if rows[0] in dict(alone)])
            found.append(Overload(None, tuple(alone), alone=True, together=together))
    return found


def _together(ask: _Questions, trips: list[list[LoadRow]]) -> float:
    """What the trip with most lacks when several are asked at once [kg, L].

    What one full trip leaves to the next adds to what that one lacks by itself.
    """
    lacking: dict[int, float] = defaultdict(float)
    for row, amount in ask.over(row for rows in trips for row in rows):
        lacking[row.trip] += amount
    return max(lacking.values(), default=0.0)


def _one_by_one(ask: _Questions, groups: list[list[LoadRow]]) -> Missing:
    """For each group of rows of one trip that alone is too much, its first row and how much."""
    found = []
    for rows in groups[:_MOST_ROWS]:
        over = ask.over(rows)
        if over:
            found.append((rows[0], sum(amount for _, amount in over)))
    return sorted(found, key=lambda pair: -pair[1])


def _firsts(missing: Missing) -> Iterable[LoadRow]:
    return (row for row, _ in missing)


def _all_rows(frame: Frame) -> list[LoadRow]:
    return [row for rows in frame.load_rows for row in rows]


def _raised(frame: Frame, people: list[Overload]) -> Frame:
    """The frame with the caps of single persons raised by what they lack, in every rule."""
    more: dict[LoadRow, int] = {}
    for overload in people:
        for row, amount in overload.missing:
            for other in frame.load_rows[row.trip]:
                if other.person_id == row.person_id and other.of_mass is row.of_mass:
                    more[other] = max(more.get(other, 0), ceil(1000 * amount))
    return replace(
        frame,
        load_rows=tuple(
            tuple(replace(row, cap=row.cap + more.get(row, 0)) for row in rows)
            for rows in frame.load_rows
        ),
    )
