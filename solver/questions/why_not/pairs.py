"""The cheapest two changes that help together, where no single one does."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import combinations

from solver.checker import check_request
from solver.model.infeasible.cap_amounts import PROBE
from solver.model.inquiry import Inquiry
from solver.problem import Problem
from solver.problem.faults import examine
from solver.questions.changes.change import Change
from solver.questions.why_not.trying import Made, Trials, rounded_up

_MOST_OTHERS = 8
"""Of changes without an amount, how many are made first in a pair, the cheapest ones [1]."""

Pair = tuple[tuple[Change, int], tuple[Change, int]]
"""Two changes, each with the least amount that may do."""


def cheapest_pair(trials: Trials, inquiry: Inquiry, changes: Sequence[Change]) -> Made | None:
    """The first pair that gives a plan, in the order of what both cost; None where none was found.

    The relaxation says which pairs can help and how much of each is needed at least.
    """
    found = [*_measured_pairs(trials, inquiry, changes), *_mixed_pairs(trials, changes)]
    found.sort(key=_cost)
    for (one, first), (other, second) in found:
        if trials.is_over:
            return None
        trials.tried += 1
        changed = one.apply(trials.problem, first)
        if changed is None:
            continue
        amount = trials.first_that_solves(changed, other, second)
        if amount is not None:
            return [(one, first), (other, amount)]
    return None


def _cost(pair: Pair) -> tuple[bool, list[tuple[int, int, int]]]:
    """What a pair costs: a leader's decision last, then the dearer of both, then the other."""
    costs = sorted((change.cost(amount) for change, amount in pair), reverse=True)
    return any(change.is_decision for change, _ in pair), costs


def _measured_pairs(trials: Trials, inquiry: Inquiry, changes: Sequence[Change]) -> Iterator[Pair]:
    """Pairs of changes with amounts that divisible loads need both of."""
    measured = [change for change in changes if change.is_measured]
    probed = [change.apply(trials.problem, PROBE) or trials.problem for change in measured]
    pairs = list(combinations(range(len(measured)), 2))
    for (one, other), amounts in zip(
        pairs, inquiry.amounts_together(probed, pairs, trials.watch), strict=False
    ):
        if amounts is not None and min(amounts) > 0:
            yield (
                (measured[one], rounded_up(amounts[0])),
                (measured[other], rounded_up(amounts[1])),
            )


def _mixed_pairs(trials: Trials, changes: Sequence[Change]) -> Iterator[Pair]:
    """Pairs in which the first has no amount: what the second needs once the first is made."""
    measured = [change for change in changes if change.is_measured]
    for change in [change for change in changes if not change.unit][:_MOST_OTHERS]:
        if trials.is_over:
            return
        changed = change.apply(trials.problem, 0)
        inquiry = None if changed is None else _inquiry(trials, changed)
        if changed is None or inquiry is None:
            continue
        probed = [other.apply(changed, PROBE) or changed for other in measured]
        for other, amount in zip(measured, inquiry.amounts(probed), strict=True):
            if amount is not None:
                yield (change, 0), (other, rounded_up(amount))


def _inquiry(trials: Trials, problem: Problem) -> Inquiry | None:
    """A changed problem ready to be asked; None where it breaks a rule or contradicts itself."""
    faults, timeline = examine(problem)
    if faults or check_request(problem, timeline).findings:
        return None
    return Inquiry.of(problem, trials.limits, timeline)
