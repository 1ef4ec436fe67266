"""Deal out all loads: construct, exchange, bring tight trips below their limits, renew."""

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

_PIECES_RENEWED, _FEWEST_STEPS, _MOST_STEPS = 150_000, 15, 40
"""Steps of renewing: this number divided by the pieces on all trips, within limits [1]."""
_STEPS_PER_PAIR = 4
"""Steps of work that one compared pair of pieces counts [1]."""

_FEW_PIECES = 800
"""With at most this many pieces on all trips, the given draft is improved as well [1]."""


def deal_out(
    frame: Frame,
    draft: Draft,
    constraints: SoftConstraints,
    limits: Sequence[int],
    work: Work,
) -> Iterator[Draft]:
    """Drafts with fewer swaps and broken preferences: loads dealt out again, or the draft improved.

    The draft is improved only on a small expedition. No trip of a result is above its limit
    [1/10,000], and no trip of `draft` may be.
    """
    prices = Prices()
    fresh = read_expedition(frame, draft, constraints, limits)
    before = [one.load.where.copy() for one in fresh.trips]
    if construct(fresh, prices, work.is_over):
        _improve(fresh, prices, work)
        tight = [trip for trip, one in enumerate(fresh.trips) if is_over_limit(one)]
        for trip in tight:
            one = fresh.trips[trip]
            if _lower(one) > one.limit:
                for piece, carrier in enumerate(before[trip].tolist()):
                    one.put(piece, carrier)
        if tight:
            _improve(fresh, prices, work)
        renew(fresh, _steps(fresh), work)
        yield fresh.draft()
    if sum(len(one.load.cargo) for one in fresh.trips) <= _FEW_PIECES:
        improved = read_expedition(frame, draft, constraints, limits)
        _improve(improved, prices, work)
        renew(improved, _steps(improved), work)
        yield improved.draft()


def _steps(expedition: Expedition) -> int:
    """How many steps renewing takes; the time is about the same on any expedition."""
    pieces = sum(len(one.load.cargo) for one in expedition.trips)
    return max(_FEWEST_STEPS, min(_MOST_STEPS, _PIECES_RENEWED // max(pieces, 1)))


def _lower(one: OneTrip) -> int:
    """Bring a trip down to its limit, even if that adds many swaps; return the peak reached."""
    where = one.load.where.copy()
    peak = lower_peak(one.load, target=one.limit)
    moved = one.load.where.copy()
    for piece in range(len(where)):
        one.load.put(piece, int(where[piece]))
    for piece in range(len(where)):
        one.put(piece, int(moved[piece]))
    return peak


def _improve(expedition: Expedition, prices: Prices, work: Work) -> None:
    """Exchange trip by trip, the fullest first, and find better paths, until neither helps."""
    order = sorted(range(len(expedition.trips)), key=lambda t: -expedition.trips[t].limit)
    for _ in range(_ROUNDS):
        steps = 0
        for trip in order:
            if work.is_over():
                return
            exchanges = exchange(expedition, trip, prices)
            pairs = len(expedition.trips[trip].load.cargo) ** 2
            work.spend(_STEPS_PER_PAIR * (exchanges + 1) * pairs)
            steps += exchanges
        if not better_paths(expedition, prices, work.is_over) and not steps:
            return
