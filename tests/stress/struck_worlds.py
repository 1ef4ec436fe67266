"""Drawn expeditions with a plan, and every blow that can strike them."""

from __future__ import annotations

from solver.checker import check_request
from solver.checker.ledger.replay import Replay, replay
from solver.problem import Item
from solver.rest.counted import with_counts
from solver.stress.blows import Blow, BlowKind, blows
from tests.rest.under_way import followed

ALL = frozenset(BlowKind)


def replayed(kind: str, seed: int) -> Replay | None:
    """The replay of a drawn plan, with as many bags and containers as it takes; None for none."""
    drawn = followed(kind, seed)
    if drawn is None:
        return None
    problem, plan = drawn
    return replay(check_request(with_counts(problem, plan)).facts, plan)


def all_blows(base: Replay, kinds: frozenset[BlowKind] = ALL) -> list[Blow]:
    """Every blow of these kinds, with storms of one night and of two."""
    return list(blows(base, kinds, (1, 2)))


def item_of(base: Replay, unit_id: str) -> Item | None:
    """The item of a unit; None for bags, containers and sacks."""
    return next((i for i in base.facts.problem.gear if i.unit_id == unit_id), None)
