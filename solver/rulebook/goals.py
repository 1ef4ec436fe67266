"""The register of goals: what a plan is judged by, in the order in which goals are taken.

Model, checker, pipeline and answer read this order and no other.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Goal:
    """One goal; less is better. `precision` is what a proven bound may lack, as a share [1]."""

    goal_id: str
    sentence: str
    unit: str
    precision: float = 0.0


GOALS: tuple[Goal, ...] = (
    Goal("peak_load", "The largest load fraction of anybody on any trip.", "1/10000 of the cap"),
    Goal(
        "fair_loads",
        "The sum over trips of each trip's largest load fraction.",
        "1/10000 of the cap, summed over trips",
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
        "hand_overs",
        "Units that change the person who carries them from one of their trips to the next.",
        "units",
    ),
)

PEAK_LOAD = GOALS[0].goal_id
"""The first goal, which every later one keeps."""
