"""The goals of a plan recomputed from its replay, in the order in which goals are taken."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

from solver.checker.ledger.replay import Replay
from solver.checker.queries.former import units_changed
from solver.checker.queries.fractions import largest_fractions
from solver.checker.queries.repackings import repackings
from solver.checker.queries.swaps import swaps
from solver.plan import Finding, Plan
from solver.rulebook import rule
from solver.rulebook.goals import HARD_FROM, HARD_SLOPES, HARD_STEP, goals_asked

Found = Mapping[str, Sequence[Finding]]
"""By rule on plans that was asked, what it found."""


def recomputed_goals(
    replay: Replay, found: Found, former: Plan | None = None
) -> tuple[tuple[str, int], ...]:
    """The value of each goal, in the order of the register."""
    recompute: dict[str, Callable[[], int]] = {
        "peak_load": lambda: peak_load(replay),
        "closeness": lambda: 0 if former is None else units_changed(replay, former),
        "hard_days": lambda: hard_days(replay),
        "mass_ascent": lambda: mass_ascent(replay),
        "preferences": lambda: preferences(found),
        "swaps": lambda: weighted_swaps(replay),
        "repackings": lambda: weighted_repackings(replay),
    }
    asked = goals_asked(with_former=former is not None)
    return tuple((goal.goal_id, recompute[goal.goal_id]()) for goal in asked)


def peak_load(replay: Replay) -> int:
    """Largest load fraction of anybody on any trip [1/10,000]."""
    return max(largest_fractions(replay), default=0)


def hard_days(replay: Replay) -> int:
    """How hard all trips are by their largest load fraction, summed [1/10,000, weighted]."""
    return sum(hardness(fraction) for fraction in largest_fractions(replay))


def hardness(fraction: int) -> int:
    """What a trip counts whose largest load fraction is so much [1/10,000]: step by step."""
    last = len(HARD_SLOPES) - 1
    counted = 0
    for step, slope in enumerate(HARD_SLOPES):
        begin = HARD_FROM + step * HARD_STEP
        end = fraction if step == last else min(fraction, begin + HARD_STEP)
        counted += slope * max(0, end - begin)
    return counted


def mass_ascent(replay: Replay) -> int:
    """Gross mass moved times ascent, summed over the trips that lead up [g m]."""
    total = 0
    for record in replay.to_come:
        ends = (record.trip.from_place, record.trip.to_place)
        low_m, high_m = (replay.facts.problem.route.place(place).elevation_m for place in ends)
        if high_m > low_m:
            moved_g = sum(b.pack_g + b.sled_g for b in record.burdens)
            total += moved_g * (high_m - low_m)
    return total


def preferences(found: Found) -> int:
    """Findings of the steered preferences that were asked [1]."""
    return sum(len(findings) for rule_id, findings in found.items() if rule(rule_id).steered)


def weighted_swaps(replay: Replay) -> int:
    """Units that one person sets down and another takes up, each times its weight [1].

    Personal items of every trip have one carrier and are left out.
    """
    return sum(one.units * one.weight for one in swaps(replay))


def weighted_repackings(replay: Replay) -> int:
    """Units that a person moves between pack and sled, each times its weight [1]."""
    return sum(one.units * one.weight for one in repackings(replay))
