"""A window: some pieces of some trips dealt out again among some people, all else unchanged."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from collections.abc import Set as AbstractSet
from dataclasses import dataclass

import numpy as np

from solver.model.goals.steady.ask_loads import Asked, ask_loads
from solver.model.goals.steady.ask_preferences import ask_preferences
from solver.model.goals.steady.ask_relief import ask_relief
from solver.model.goals.steady.ask_swaps import ask_swaps
from solver.model.goals.steady.expedition import Expedition
from solver.model.goals.steady.question import Question, answered
from solver.model.packing.trip_load import Bools
from solver.model.run import STEADY_WORK, Run
from solver.model.work import STEPS_A_SECOND, Work

_A_COLUMN = 500
"""Steps of work that stand for writing a column with its rows [1]."""


@dataclass(frozen=True, slots=True)
class Dealt:
    """Whether a window changed anything, and whether it is proven that it can do no better."""

    changed: bool
    proven: bool


def deal_window(
    expedition: Expedition,
    free: Mapping[int, Bools],
    work: Work,
    *,
    seconds: float,
    people: AbstractSet[int] | None = None,
    kilo: float = 0.0,
) -> Dealt:
    """Deal the free pieces (P,) of trips among people, as cheaply as so much work finds.

    Preferences cost most, then swaps. A kilogram that weighs on the weakest on a trip costs `kilo`
    [weighted swaps]. No trip passes its limit by it.
    """
    question = Question()
    asked = {
        trip: ask_loads(question, expedition.trips[trip], its, people)
        for trip, its in free.items()
        if its.any()
    }
    for its in asked.values():
        ask_preferences(question, its)
    ask_swaps(question, expedition, asked)
    if kilo:
        ask_relief(question, asked.values(), kilo)
    run = Run(seconds, steady=True, should_stop=work.should_stop)
    answer = answered(question, run)
    values = answer.values
    work.spend(_A_COLUMN * len(question.most) + answer.took / STEADY_WORK * STEPS_A_SECOND)
    if values is None or _cost(question, values) >= _cost(question, question.start):
        return Dealt(changed=False, proven=answer.proven)
    for its in asked.values():
        _put(its, values)
    return Dealt(changed=True, proven=answer.proven)


def all_of(expedition: Expedition, trip: int) -> Bools:
    """Every piece of a trip that has a choice (P,)."""
    choice: Bools = expedition.trips[trip].load.has_choice
    return choice


def held_by(expedition: Expedition, trip: int, people: AbstractSet[int]) -> Bools:
    """The pieces of a trip that some people have and could share out otherwise (P,)."""
    one = expedition.trips[trip]
    theirs = np.isin(one.person, sorted(people))
    held: Bools = theirs[one.load.where] & (one.load.able[:, theirs].sum(axis=1) > 1)
    return held


def _cost(question: Question, values: Sequence[int]) -> int:
    return sum(cost * value for cost, value in zip(question.cost, values, strict=True))


def _put(asked: Asked, values: Sequence[int]) -> None:
    """Put the free pieces where the answer has them; alike ones stay where they can."""
    where = asked.one.load.where
    wanted: dict[int, list[int]] = {cargo: [] for cargo in asked.pieces}
    mine = values[asked.offset : asked.offset + len(asked.of)]
    cargoes = asked.cargo[asked.of].tolist()
    for cargo, carrier, units in zip(cargoes, asked.into.tolist(), mine, strict=True):
        wanted[cargo].extend([carrier] * units)
    for cargo, carriers in wanted.items():
        moving = []
        for piece in asked.pieces[cargo].tolist():
            if int(where[piece]) in carriers:
                carriers.remove(int(where[piece]))
            else:
                moving.append(piece)
        for piece, carrier in zip(moving, carriers, strict=True):
            asked.one.put(piece, carrier)
