"""Deal out all loads: full trips first, then the others, each after those that are dealt already.

A full trip can be packed in few ways only, so those trips decide who keeps what. They are dealt
first, as if there were no others: each by itself, then among two people at a time over all of
them. What rides on the other trips follows, the fuller trips first, since they have room.

On each trip pieces are moved and exchanged one at a time first. CP-SAT is asked only where that
leaves anything to be better.

Trips that a stop leaves undealt break as many preferences as before, so they are as in another
draft of the same rides then, which was quicker to find.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from collections.abc import Set as AbstractSet

import numpy as np

from solver.model.assignment.by_trip import by_trip, join
from solver.model.assignment.draft import Draft
from solver.model.formulation.frame import Frame
from solver.model.goals.soft_constraint import SoftConstraints
from solver.model.goals.steady.classes import deal_classes
from solver.model.goals.steady.costs import Prices
from solver.model.goals.steady.expedition import Expedition, read_expedition
from solver.model.goals.steady.pairs import deal_pairs
from solver.model.goals.steady.paths import better_paths
from solver.model.goals.steady.room import room_of
from solver.model.goals.steady.settle import settle
from solver.model.goals.steady.window import all_of, deal_window
from solver.model.work import Work

_FULL, _NEARLY_FULL = 0.02, 0.05
"""A trip is full where people have less room on average than this share of their limits, and
nearly full under the other: those are taken as full where they are small enough [1]."""

_MOST_COLUMNS, _MOST_COLUMNS_AT_LAST = 1_500, 3_000
"""How many columns two people have at most on all trips that count as full for nearly full ones to
be among them, and on all trips for pairs to share out all of them again at last [1]."""

_FULL_SECONDS, _PAIR_SECONDS, _LIGHT_SECONDS = 0.8, 0.3, 0.4
"""Work for a full trip, for two people on many trips, and for another trip [s of a steady run]."""

_PAIR_SECONDS_AT_LAST = 0.4
"""Work for two people on all trips at last [s of a steady run]."""

_MOST_CELLS, _CLASSES, _CLASSES_SECONDS = 10_000, 6, 2.0
"""Up to how many pieces times carriers parts of all cargoes are dealt out again at last, on all
trips among all people, how many times at most [1], and the work for each [s of a steady run]."""

_FULL_COLUMNS, _LIGHT_COLUMNS = 300, 2_000
"""How many columns a full trip, and another, has at most for CP-SAT to be asked about it whole [1].

With more it found little in its time, and pairs of people came to the same.
"""

_PAIR_COLUMNS, _PAIR_COLUMNS_AT_LAST = 400, 1_500
"""About how many columns two people share out at a time on full trips, and at last [1]."""

_IN_VAIN, _IN_VAIN_AT_LAST = 6, 10
"""After how many pairs in vain dealing them ends on full trips, and at last [1]."""

_PAIRS_SHARE = 0.4
"""What pairs on full trips may use of the work, so that the other trips are dealt out as well."""

_PAIRS, _PAIRS_AFTERWARDS = 50, 30
"""How many pairs of people deal again on full trips, and at last on all trips [1]."""


def deal_out(
    frame: Frame,
    draft: Draft,
    constraints: SoftConstraints,
    limits: Sequence[int],
    work: Work,
    *,
    otherwise: Draft | None = None,
    pairs_over: Callable[[], bool] | None = None,
    windows_over: Callable[[], bool] | None = None,
) -> Draft:
    """A draft with fewer preferences broken, then fewer swaps; its rides are those of `draft`.

    No trip of it is above its limit [1/10,000], and no trip of `draft` may be. What a stop leaves
    undealt is as in `otherwise`. `pairs_over` ends the pairs on full trips before all else ends.
    From `windows_over` on, trips with room are settled only, so that it comes to all of them.
    """
    expedition = read_expedition(frame, draft, constraints, limits)
    room = {trip: room_of(one) for trip, one in enumerate(expedition.trips)}
    order = sorted(room, key=lambda trip: (room[trip], trip))
    full = _full(expedition, order, room)
    dealt = _deal_full(expedition, full, work, pairs_over)
    for trip in order[len(full) :]:
        if work.is_over():
            break
        dealt.add(trip)
        late = windows_over is not None and windows_over()
        columns = 0 if late else _LIGHT_COLUMNS
        _deal_trip(expedition.part(dealt), trip, work, seconds=_LIGHT_SECONDS, columns=columns)
    if work.should_stop():
        return _completed(frame, expedition.draft(), dealt, otherwise or draft)
    better_paths(expedition, Prices(), work.is_over)
    is_large = sum(_columns(expedition, trip) for trip in order) > _MOST_COLUMNS_AT_LAST
    deal_pairs(
        expedition,
        order,
        work,
        seconds=_PAIR_SECONDS_AT_LAST,
        most=_PAIRS_AFTERWARDS,
        most_in_vain=_IN_VAIN_AT_LAST,
        columns=_PAIR_COLUMNS_AT_LAST,
        only_swapping=is_large,
    )
    if sum(int(one.load.able.sum()) for one in expedition.trips) <= _MOST_CELLS:
        deal_classes(expedition, work, seconds=_CLASSES_SECONDS, most=_CLASSES)
    return expedition.draft()


def _full(expedition: Expedition, order: Sequence[int], room: Mapping[int, float]) -> list[int]:
    """The full trips, and those nearly full as long as they are small."""
    full, columns = [], 0.0
    for trip in order:
        columns += _columns(expedition, trip)
        if room[trip] >= (_NEARLY_FULL if columns <= _MOST_COLUMNS else _FULL):
            break
        full.append(trip)
    return full


def _columns(expedition: Expedition, trip: int) -> float:
    """About how many columns two people have in a question about a trip [1]."""
    load = expedition.trips[trip].load
    _, first = np.unique(load.cargo, return_index=True)
    return 2 * float(load.able[first].sum()) / max(expedition.people, 1)


def _deal_full(
    expedition: Expedition,
    full: Sequence[int],
    work: Work,
    pairs_over: Callable[[], bool] | None,
) -> set[int]:
    """Deal the full trips as if there were no others; those that it came to."""
    part, dealt = expedition.part(set(full)), set[int]()
    for trip in full:
        if work.is_over():
            return dealt
        dealt.add(trip)
        _deal_trip(part, trip, work, seconds=_FULL_SECONDS, columns=_FULL_COLUMNS)
    pairs = work.share(_PAIRS_SHARE, pairs_over)
    deal_pairs(
        part,
        full,
        pairs,
        seconds=_PAIR_SECONDS,
        most=_PAIRS,
        most_in_vain=_IN_VAIN,
        columns=_PAIR_COLUMNS,
    )
    work.spend(pairs.spent)
    return dealt


def _deal_trip(
    expedition: Expedition, trip: int, work: Work, *, seconds: float, columns: int
) -> None:
    """Settle a trip, then ask CP-SAT where it may be better yet and has few enough columns."""
    free = all_of(expedition, trip)
    settled = settle(expedition, trip, free, work)
    is_small = _columns(expedition, trip) / 2 * expedition.people <= columns
    if is_small and not settled.is_best and not work.is_over():
        deal_window(expedition, {trip: free}, work, seconds=seconds)


def _completed(frame: Frame, draft: Draft, dealt: AbstractSet[int], otherwise: Draft) -> Draft:
    """A draft that was dealt out as far as some trips; the others are as in another one."""
    others = by_trip(frame, otherwise)
    return join(
        [held if trip in dealt else others[trip] for trip, held in enumerate(by_trip(frame, draft))]
    )
