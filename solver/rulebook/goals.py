"""The register of goals: what a plan is judged by, in the order in which goals are taken.

Model, checker, pipeline and answer read this order and no other.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Goal:
    """One goal; less is better.

    `precision` is how far a proven bound may be below the value, as a share [1]. A goal with
    `needs_former` counts only if a former plan is given.
    """

    goal_id: str
    sentence: str
    unit: str
    precision: float = 0.0
    needs_former: bool = False


GOALS: tuple[Goal, ...] = (
    Goal("peak_load", "The largest load fraction of anybody on any trip.", "1/10000 of the cap"),
    Goal(
        "closeness",
        "The number of units that people carry on a trip and did not carry there in the former "
        "plan. This is a goal only if the request names a former plan.",
        "unit-rides changed",
        needs_former=True,
    ),
    Goal(
        "hard_days",
        "How hard the trips are. For each trip this is how far its largest load fraction is above "
        "90 %. What is above 92 % counts twice, above 94 % 4 times, above 96 % 8 times and above "
        "98 % 16 times. The goal is the sum over all trips.",
        "1/10000 of the cap, weighted",
    ),
    Goal(
        "mass_ascent",
        "Mass carried times ascent, summed over the trips that lead up.",
        "g m",
        # Its bound is a floating-point number of the linear solver.
        precision=1e-6,
    ),
    Goal(
        "preferences", "How many steered preferences the plan does not meet.", "preferences broken"
    ),
    Goal(
        "swaps",
        "Units that one person sets down and another takes up between two trips on which such "
        "units ride one after the other: for each unit id the smaller of what people gain and "
        "what they give up. At a stop within a day a swap counts 3, of a single piece between "
        "days 2, of anything else 1. Items that ride with their owner are left out.",
        "weighted swaps",
    ),
    Goal(
        "repackings",
        "Units that stay with a person and go from the pack to the sled or back, between two trips "
        "on which such units ride one after the other and that person hauls a sled. At a stop "
        "within a day a unit counts 3, between days 1.",
        "weighted units",
    ),
)

HARD_FROM, HARD_STEP, HARD_SLOPES = 9_000, 200, (1, 2, 4, 8, 16)
"""From which load fraction a trip is hard, how wide each step above is [1/10,000], and what each
1/10,000 of a step counts [1]. The last step has no end. Common practice, no source."""

SWAP_AT_STOP = 3
"""What a swap within a day counts [1]."""

SWAP_OF_SINGLE = 2
"""What a swap between days counts of an item of which there is one [1]."""

SWAP_OF_STOCK = 1
"""What any other swap between days counts: it comes out of a store or cache anyway [1]."""

REPACKED_AT_STOP, REPACKED_BETWEEN_DAYS = 3, 1
"""What a unit counts that goes from pack to sled or back at a stop, and between days [1]. Common
practice, no source: in the morning people pack anyway, at a stop they must open both."""

PEAK_LOAD = GOALS[0].goal_id
"""The first goal, which every later one keeps."""


def goals_asked(*, with_former: bool) -> tuple[Goal, ...]:
    """The goals of a request that gives a former plan, or none."""
    return tuple(goal for goal in GOALS if with_former or not goal.needs_former)
