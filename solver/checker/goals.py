"""The goals of a plan recomputed from its replay, in the order in which goals are taken."""

from __future__ import annotations

from collections.abc import Callable

from solver.checker.ledger.replay import Replay
from solver.checker.preferred import preferences
from solver.checker.queries.fractions import load_fraction
from solver.checker.queries.hand_overs import received
from solver.rulebook.goals import GOALS as REGISTER


def peak_load(replay: Replay) -> int:
    """Largest load fraction of anybody on any trip [1/10,000]."""
    return max(_largest(replay), default=0)


def fair_loads(replay: Replay) -> int:
    """Sum over all trips of the trip's largest load fraction [1/10,000]."""
    return sum(_largest(replay))


def mass_ascent(replay: Replay) -> int:
    """Gross mass moved times ascent, summed over the trips that lead up [g m]."""
    total = 0
    for record in replay.records:
        ends = (record.trip.from_place, record.trip.to_place)
        low_m, high_m = (replay.facts.problem.route.place(place).elevation_m for place in ends)
        if high_m > low_m:
            moved_g = sum(b.pack_g + b.sled_g for b in record.burdens)
            total += moved_g * (high_m - low_m)
    return total


def hand_overs(replay: Replay) -> int:
    """Units that another person carries than on the trip before on which such units rode [1].

    Personal items of every trip have one carrier and are left out.
    """
    return sum(one.units for one in received(replay))


_RECOMPUTED: dict[str, Callable[[Replay], int]] = {
    "peak_load": peak_load,
    "fair_loads": fair_loads,
    "mass_ascent": mass_ascent,
    "preferences": preferences,
    "hand_overs": hand_overs,
}

GOALS = tuple((goal.goal_id, _RECOMPUTED[goal.goal_id]) for goal in REGISTER)
"""Each goal of the register with its value, in the register's order."""


def _largest(replay: Replay) -> list[int]:
    return [
        max((load_fraction(burden, record.trip) for burden in record.burdens), default=0)
        for record in replay.records
    ]
