"""What the weakest carry in a question, at a price of a kilogram on a trip."""

from __future__ import annotations

from collections.abc import Iterable

from solver.model.goals.steady.ask_loads import Asked
from solver.model.goals.steady.question import Question
from solver.model.goals.steady.spare import weighs_on_weakest

_A_SWAP = 100
"""What a weighted swap counts, so that parts of one can be told in whole numbers [1]."""


def ask_relief(question: Question, asked: Iterable[Asked], kilo: float) -> None:
    """Let each kilogram that weighs on the weakest on a trip cost so much [weighted swaps].

    All costs that the question has already count a hundredfold from then on.
    """
    question.cost[:] = [cost * _A_SWAP for cost in question.cost]
    for its in asked:
        weighs = weighs_on_weakest(its.one)[its.into]
        costs = (kilo * _A_SWAP / 1000) * its.one.load.mass[its.first][its.of] * weighs
        for column, cost in enumerate(costs.round().astype(int).tolist(), its.offset):
            question.cost[column] += cost
