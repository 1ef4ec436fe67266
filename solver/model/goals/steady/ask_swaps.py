"""Swaps in a question: what people give up, or gain, between two trips one after the other."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise

from solver.model.goals.steady.ask_loads import Asked
from solver.model.goals.steady.expedition import Expedition
from solver.model.goals.steady.question import Question
from solver.model.packing.trip_load import Ints


def ask_swaps(question: Question, expedition: Expedition, asked: Mapping[int, Asked]) -> None:
    """A column for each person and each two trips of a unit that the question may change.

    Where the later trip has as many units or more, what people give up is swapped, else what
    they gain: the smaller of the two sums. Both are sums of positive parts.
    """
    trips = {
        trip: _Trip(expedition, trip, asked.get(trip)) for trip in range(len(expedition.trips))
    }
    for unit_id, on_trips in expedition.pieces.items():
        held: dict[int, _Held] = {}
        for earlier, later in pairwise(sorted(on_trips)):
            if any(_is_free(asked, trip, on_trips[trip]) for trip in (earlier, later)):
                for trip in (earlier, later):
                    if trip not in held:
                        held[trip] = trips[trip].held(on_trips[trip])
                fewer, more = sorted((earlier, later), key=lambda t: (len(on_trips[t]), t))
                weight = expedition.weight(unit_id, earlier, later)
                _ask_link(question, held[fewer], held[more], weight)


def _is_free(asked: Mapping[int, Asked], trip: int, pieces: Ints) -> bool:
    return trip in asked and bool(asked[trip].free[pieces].any())


@dataclass(slots=True)
class _Held:
    """A unit on a trip by person: columns, what they have beside these, and what they have now."""

    columns: list[list[int]]
    fixed: list[int]
    now: list[int]


@dataclass
class _Trip:
    """A trip of which something may be asked."""

    expedition: Expedition
    trip: int
    asked: Asked | None

    @cached_property
    def _columns(self) -> dict[int, list[tuple[int, int]]]:
        return {} if self.asked is None else self.asked.by_cargo()

    def held(self, pieces: Ints) -> _Held:
        """Some pieces of the trip by person."""
        one, people = self.expedition.trips[self.trip], self.expedition.people
        columns: list[list[int]] = [[] for _ in range(people)]
        fixed, now = [0] * people, [0] * people
        free = [False] * len(pieces) if self.asked is None else self.asked.free[pieces].tolist()
        whose, cargoes = one.person[one.load.where[pieces]].tolist(), set()
        for person, is_free, cargo in zip(
            whose, free, one.load.cargo[pieces].tolist(), strict=True
        ):
            now[person] += 1
            if is_free:
                cargoes.add(cargo)
            else:
                fixed[person] += 1
        for cargo in sorted(cargoes):
            for column, person in self._columns[cargo]:
                columns[person].append(column)
        return _Held(columns, fixed, now)


def _ask_link(question: Question, fewer: _Held, more: _Held, weight: int) -> None:
    for person, (left, right) in enumerate(zip(fewer.columns, more.columns, strict=True)):
        fixed = fewer.fixed[person] - more.fixed[person]
        most = fixed + sum(question.most[column] for column in left)
        if (left or right) and most > 0:
            start = max(0, fewer.now[person] - more.now[person])
            swapped = question.column(most, cost=weight, start=start)
            factors = [1] * len(left) + [-1] * (len(right) + 1)
            question.sums([*left, *right, swapped], factors, -fixed)
