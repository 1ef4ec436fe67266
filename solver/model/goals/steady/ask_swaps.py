"""Swaps in a question: what people give up, or gain, between two trips one after the other."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping
from itertools import pairwise

import numpy as np

from solver.model.goals.steady.ask_loads import Asked
from solver.model.goals.steady.expedition import Expedition
from solver.model.goals.steady.question import Question, Term
from solver.model.packing.trip_load import Ints


def ask_swaps(question: Question, expedition: Expedition, asked: Mapping[int, Asked]) -> None:
    """A column for each person and each two trips of a unit that the question may change.

    Where the later trip has as many units or more, what people give up is swapped, else what
    they gain: the smaller of the two sums. Both are sums of positive parts.
    """
    for unit_id, on_trips in expedition.pieces.items():
        for earlier, later in pairwise(sorted(on_trips)):
            if any(_is_free(asked, trip, on_trips[trip]) for trip in (earlier, later)):
                _ask_link(question, expedition, asked, unit_id, (earlier, later))


def _is_free(asked: Mapping[int, Asked], trip: int, pieces: Ints) -> bool:
    return trip in asked and bool(asked[trip].free[pieces].any())


def _ask_link(
    question: Question,
    expedition: Expedition,
    asked: Mapping[int, Asked],
    unit_id: str,
    trips: tuple[int, int],
) -> None:
    on_trips, weight = expedition.pieces[unit_id], expedition.weight(unit_id, *trips)
    fewer, more = sorted(trips, key=lambda trip: (len(on_trips[trip]), trip))
    less, more_of = (_held(expedition, asked, unit_id, trip) for trip in (fewer, more))
    now = expedition.held_by(unit_id, fewer) - expedition.held_by(unit_id, more)
    for person in range(expedition.people):
        left, right = less[0][person], more_of[0][person]
        fixed = int(less[1][person] - more_of[1][person])
        most = fixed + sum(question.most[column] for column, _ in left)
        if (left or right) and most > 0:
            start = max(0, int(now[person]))
            swapped = question.column(most, cost=weight, start=start)
            terms = [*left, *((column, -1) for column, _ in right), (swapped, -1)]
            question.row(terms, -fixed)


def _held(
    expedition: Expedition, asked: Mapping[int, Asked], unit_id: str, trip: int
) -> tuple[dict[int, list[Term]], Ints]:
    """Columns of a unit on a trip by person, and what people have there anyway (people,)."""
    one, pieces = expedition.trips[trip], expedition.pieces[unit_id][trip]
    terms: dict[int, list[Term]] = defaultdict(list)
    if trip not in asked:
        return terms, expedition.held_by(unit_id, trip)
    mine = asked[trip]
    for cargo in np.unique(one.load.cargo[pieces[mine.free[pieces]]]).tolist():
        for carrier, person in enumerate(one.person.tolist()):
            if (cargo, carrier) in mine.columns:
                terms[person].append((mine.columns[cargo, carrier], 1))
    fixed = one.person[one.load.where[pieces[~mine.free[pieces]]]]
    return terms, np.bincount(fixed, minlength=expedition.people)
