"""The goals of a plan recomputed from its replay, in the order in which goals are taken."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from solver.checker.ledger.replay import Replay
from solver.checker.queries.fractions import largest_fractions
from solver.checker.queries.hand_overs import received
from solver.plan import GOAL_UNITS, Finding

STEERED = (
    "heaviest_days_limited",
    "sled_share_uphill",
    "sled_share_downhill",
    "sled_light_on_traverse",
    "last_on_rope_light",
    "lead_sled_light",
    "guides_carry_rescue_kit",
)
"""Preferences that the search steers by; they count in a goal, as far as the request asks them."""

Found = Mapping[str, Sequence[Finding]]
"""By rule on plans that was asked, what it found."""


def recomputed_goals(replay: Replay, found: Found) -> tuple[tuple[str, int], ...]:
    """The value of each goal, in the order in which they are taken."""
    values = {
        "peak_load": peak_load(replay),
        "fair_loads": fair_loads(replay),
        "mass_height": mass_height(replay),
        "preferences": preferences(found),
        "hand_overs": hand_overs(replay),
    }
    return tuple((goal_id, values[goal_id]) for goal_id, _ in GOAL_UNITS)


def peak_load(replay: Replay) -> int:
    """Largest load fraction of anybody on any trip [1/10,000]."""
    return max(largest_fractions(replay), default=0)


def fair_loads(replay: Replay) -> int:
    """Sum over all trips of the trip's largest load fraction [1/10,000]."""
    return sum(largest_fractions(replay))


def mass_height(replay: Replay) -> int:
    """Gross mass moved times height gained, summed over the trips that gain height [g m]."""
    total = 0
    for record in replay.records:
        ends = (record.trip.from_place, record.trip.to_place)
        low_m, high_m = (replay.facts.problem.route.place(place).elevation_m for place in ends)
        if high_m > low_m:
            moved_g = sum(b.pack_g + b.sled_g for b in record.burdens)
            total += moved_g * (high_m - low_m)
    return total


def preferences(found: Found) -> int:
    """Findings of the steered preferences that were asked [1]."""
    return sum(len(found.get(rule_id, ())) for rule_id in STEERED)


def hand_overs(replay: Replay) -> int:
    """Units that another person carries than on the trip before on which such units rode [1].

    Personal items of every trip have one carrier and are left out.
    """
    return sum(one.units for one in received(replay))
