"""The whole way: construct, repair tight trips with the fewest swaps, then better paths."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from solver.model.assignment.draft import Draft
from solver.model.formulation.frame import Frame
from solver.model.goals.soft_constraint import SoftConstraints
from solver.model.goals.steady.construct import construct
from solver.model.goals.steady.costs import Prices, is_over_limit
from solver.model.goals.steady.exchange import exchange
from solver.model.goals.steady.expedition import Expedition, OneTrip, read_expedition
from solver.model.goals.steady.paths import better_paths
from solver.model.goals.steady.renew import renew
from solver.model.packing.swaps import lower_peak
from solver.model.work import Work

_ROUNDS = 2

_STEP_PIECES, _FEWEST_STEPS, _MOST_STEPS = 150_000, 15, 40
"""Renewing takes so many steps as this holds pieces, within limits [1]."""
_WEIGHED = 4
"""Steps that stand for a pair of pieces weighed [1]."""

_FEW_PIECES = 800
"""Up to so many pieces on all trips it is quick to try from the draft as well [1]."""


def deal_out(
    frame: Frame,
    draft: Draft,
    constraints: SoftConstraints,
    limits: Sequence[int],
    work: Work,
) -> Iterator[Draft]:
    """Drafts with fewer swaps and preferences broken: dealt out anew; small ones as before, too.

    Every trip of each is under its limit [1/10,000], as those of the draft must be.
    """
    prices = Prices()
    anew = read_expedition(frame, draft, constraints, limits)
    before = [one.load.where.copy() for one in anew.trips]
    if construct(anew, prices, work.is_over):
        _improve(anew, prices, work)
        tight = [trip for trip, one in enumerate(anew.trips) if is_over_limit(one)]
        for trip in tight:
            one = anew.trips[trip]
            if _lower(one) > one.limit:
                for piece, carrier in enumerate(before[trip].tolist()):
                    one.put(piece, carrier)
        if tight:
            _improve(anew, prices, work)
        renew(anew, _steps(anew), work)
        yield anew.draft()
    if sum(len(one.load.cargo) for one in anew.trips) <= _FEW_PIECES:
        as_it_is = read_expedition(frame, draft, constraints, limits)
        _improve(as_it_is, prices, work)
        renew(as_it_is, _steps(as_it_is), work)
        yield as_it_is.draft()


def _steps(expedition: Expedition) -> int:
    """How many steps renewing takes: so many that it takes about as long on any expedition."""
    pieces = sum(len(one.load.cargo) for one in expedition.trips)
    return max(_FEWEST_STEPS, min(_MOST_STEPS, _STEP_PIECES // max(pieces, 1)))


def _lower(one: OneTrip) -> int:
    """Bring a trip down to its limit whatever it costs in swaps; the peak reached."""
    where = one.load.where.copy()
    peak = lower_peak(one.load, target=one.limit)
    moved = one.load.where.copy()
    for piece in range(len(where)):
        one.load.put(piece, int(where[piece]))
    for piece in range(len(where)):
        one.put(piece, int(moved[piece]))
    return peak


def _improve(expedition: Expedition, prices: Prices, work: Work) -> None:
    """Exchanges trip by trip, the fullest first, and better paths, until neither helps."""
    order = sorted(range(len(expedition.trips)), key=lambda t: -expedition.trips[t].limit)
    for _ in range(_ROUNDS):
        steps = 0
        for trip in order:
            if work.is_over():
                return
            taken = exchange(expedition, trip, prices)
            work.spend(_WEIGHED * (taken + 1) * len(expedition.trips[trip].load.cargo) ** 2)
            steps += taken
        if not better_paths(expedition, prices, work.is_over) and not steps:
            return
