"""Greedy rides mended where they break a row: a unit goes the same way on another day.

A careful guide does the same: what would be missing on some day goes a day earlier or later.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from solver.model.formulation.flow_row import FlowRow, Rides
from solver.model.formulation.flow_rows import flow_rows
from solver.model.formulation.frame import Frame

_MOST_STEPS = 60
"""Units that are moved at most before it is given up."""

Step = tuple[int, int, int]
"""A cargo of which a unit goes from one trip to another."""


@dataclass(slots=True)
class RowValues:
    """Rides, and what each row on rides comes to with them; below 0 it is broken."""

    rides: dict[tuple[int, int], int]
    rows: tuple[FlowRow, ...]
    value: list[int]
    touching: Mapping[tuple[int, int], list[tuple[int, int]]]

    @classmethod
    def of(cls, frame: Frame, rides: Rides) -> RowValues:
        """The rows of a frame with some rides."""
        rows = flow_rows(frame)
        touching: dict[tuple[int, int], list[tuple[int, int]]] = defaultdict(list)
        for number, row in enumerate(rows):
            for ride, factor in row.terms:
                touching[ride].append((number, factor))
        value = [
            row.constant + sum(factor * rides.get(ride, 0) for ride, factor in row.terms)
            for row in rows
        ]
        return cls(dict(rides), rows, value, touching)

    def change(self, step: Step) -> dict[int, int]:
        """By how much each row changes that a step touches."""
        cargo, left, taken = step
        change: dict[int, int] = defaultdict(int)
        for ride, sign in (((cargo, left), -1), ((cargo, taken), 1)):
            for number, factor in self.touching.get(ride, ()):
                change[number] += sign * factor
        return change

    def stay_kept(self, step: Step) -> bool:
        """Whether a step breaks no row by more than before."""
        return all(
            more >= 0 or self.value[number] + more >= 0
            for number, more in self.change(step).items()
        )

    def take(self, step: Step) -> None:
        """Take a step."""
        cargo, left, taken = step
        for number, more in self.change(step).items():
            self.value[number] += more
        self.rides[cargo, left] -= 1
        self.rides[cargo, taken] = self.rides.get((cargo, taken), 0) + 1


def mend_rides(frame: Frame, rides: Rides) -> dict[tuple[int, int], int]:
    """The rides with units moved to other days as long as that breaks the rows by less."""
    values = RowValues.of(frame, rides)
    for _ in range(_MOST_STEPS):
        broken = next((n for n, amount in enumerate(values.value) if amount < 0), None)
        if broken is None:
            break
        best: tuple[int, Step] | None = None
        for step in _steps(frame, values.rides, values.rows[broken]):
            gain = sum(
                min(0, values.value[n] + more) - min(0, values.value[n])
                for n, more in values.change(step).items()
            )
            if gain > 0 and (best is None or gain > best[0]):
                best = gain, step
        if best is None:
            break
        values.take(best[1])
    return values.rides


def _steps(frame: Frame, rides: Rides, row: FlowRow) -> Iterator[Step]:
    """Units that ride on a trip of the row, or on another day instead of it."""
    trips = frame.world.timeline.trips
    for (cargo, trip), factor in row.terms:
        ends = trips[trip].from_place, trips[trip].to_place
        for other in frame.allowed_trips[cargo]:
            if other == trip or (trips[other].from_place, trips[other].to_place) != ends:
                continue
            left, taken = (trip, other) if factor < 0 else (other, trip)
            if rides.get((cargo, left), 0) > 0 and (cargo, left) not in frame.settled:
                yield cargo, left, taken
