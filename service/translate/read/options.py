"""What a request says of its own solve."""

from __future__ import annotations

from api_schema.plan_request import OptionsRequest
from service.translate.read import quantities
from service.translate.read.notes import Notes
from solver.outcome import Limits

LONGEST_SOLVE_SECONDS = 3600
STANDARD_GAP = 10
"""How far the peak may stay above its bound when the search stops [1/10,000 of the peak]."""

STANDARD_HARD_TOLERANCE = 50
"""How far a hard trip may be above its least for the goals after [1/10,000 of its fraction].

That is 150 g of 30 kg. It never lifts the peak.
"""


def read_options(options: OptionsRequest, notes: Notes) -> tuple[Limits, float | None]:
    """The limits of the search, and the time limit where the request sets one [s]."""
    standard = Limits()
    solve_seconds = None
    if options.time_limit is not None:
        solve_seconds = quantities.seconds(options.time_limit)
        if not 1 <= solve_seconds <= LONGEST_SOLVE_SECONDS:
            notes.fault(
                "/options/time_limit",
                "out_of_range",
                f"This must be between 1 and {LONGEST_SOLVE_SECONDS} s.",
            )
    light = standard.light_trip_share
    if options.light_trips_up_to is not None:
        light = _grid(options.light_trips_up_to)
    near = options.near_plan
    near_tolerance = standard.near_tolerance
    if near is not None and near.tolerance is not None:
        near_tolerance = _grid(near.tolerance)
    return (
        Limits(
            wall_seconds=standard.wall_seconds if solve_seconds is None else solve_seconds,
            workers=standard.workers if options.workers is None else options.workers,
            racing=options.racing,
            gap=STANDARD_GAP,
            hard_tolerance=STANDARD_HARD_TOLERANCE,
            light_trip_share=light,
            near_tolerance=near_tolerance,
            seed=standard.seed if options.seed is None else options.seed,
        ),
        solve_seconds,
    )


def _grid(percent: str) -> int:
    """A percentage on the grid of fractions, rounded down [1/10,000]."""
    return int(quantities.percent_exactly(percent) * 100)
