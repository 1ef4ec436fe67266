"""A whole draft near to a former plan: rides near to the former ones, then each trip for itself."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from solver.model.assignment.by_trip import by_trip, join, riding, riding_by_trip
from solver.model.assignment.draft import Draft, Held
from solver.model.assignment.load_fractions import trip_fractions
from solver.model.formulation.flow_row import Rides
from solver.model.formulation.former import Former
from solver.model.formulation.frame import Frame
from solver.model.formulation.spread_slack import Slack, spread_slack
from solver.model.packing.as_before import as_before
from solver.model.run import run_within
from solver.model.solvers.closest_trip import closest_trip
from solver.model.solvers.fewer_people import among_fewer_people
from solver.model.solvers.nearest_rides import nearest_rides
from solver.outcome import Limits
from solver.progress import Watch
from solver.quantities import FRACTION_GRID

_RIDES_SHARE, _TRIP_SECONDS = 0.3, 0.5
"""Of the time left for the rides [1], and time for one trip [s]."""

_Question = tuple[int, tuple[tuple[int, int], ...], Slack]
"""A trip, what rides on it, and what one carrier may hold there."""


@dataclass(frozen=True, slots=True)
class NearDraft:
    """A draft whose trips have the fewest changes under a limit, and the peak of its rides.

    Both are in 1/10,000. A trip that keeps a lower limit, too, has the fewest under that as well.
    """

    draft: Draft
    rides_peak: int
    limit: int


def first_near(frame: Frame, limits: Limits, watch: Watch) -> NearDraft | None:
    """A draft with few changes whose peak is what people know already, within the tolerance.

    It needs no other draft, so it can be the first plan of a search. None where there is none, or
    where nothing is known.
    """
    if frame.former is None or limits.near_peak == 0:
        return None
    near = Near(frame, frame.former, limits, watch)
    peak = min(FRACTION_GRID, limits.near_peak)
    more = peak * limits.near_tolerance // FRACTION_GRID
    rides_peak, limit = (min(FRACTION_GRID, peak + part) for part in (more // 2, more))
    rides = near.rides(rides_peak)
    draft = None if rides is None else near.shared_out(rides, limit)
    return None if draft is None else NearDraft(draft, rides_peak, limit)


@dataclass(frozen=True, slots=True)
class Near:
    """What it takes to find drafts near to a former plan; `first` is one that is known."""

    frame: Frame
    former: Former
    limits: Limits
    watch: Watch
    first: NearDraft | None = None

    def rides(self, peak: int) -> Rides | None:
        """Rides near to the former ones under a peak [1/10,000]; None where none are found."""
        if self.first is not None and self.first.rides_peak == peak:
            return self.first.draft.rides()
        return nearest_rides(
            self.frame,
            self.former,
            self.limits,
            peak_at_most=min(FRACTION_GRID, peak),
            seconds=_RIDES_SHARE * self.watch.left(),
            should_stop=self.watch.should_stop,
        )

    def shared_out(self, rides: Rides, limit: int) -> Draft | None:
        """A draft with these rides and the fewest changes under a limit [1/10,000].

        None where a trip cannot be packed.
        """
        known = self._known(limit)
        slack = spread_slack(self.frame, rides)
        held: list[Held] = []
        for trip, units in enumerate(riding_by_trip(self.frame, rides)):
            found = known.get((trip, tuple(sorted(units.items())), slack[trip]))
            if found is None:
                found = self._fewest(trip, units, slack[trip], limit)
            if found is None:
                return None
            held.append(found)
        return join(held)

    def _known(self, limit: int) -> Mapping[_Question, Held]:
        """The trips of the first draft that have the fewest changes under this limit, too."""
        if self.first is None or self.first.limit < limit:
            return {}
        frame, draft = self.frame, self.first.draft
        fractions, slack = trip_fractions(frame, draft), spread_slack(frame, draft.rides())
        return {
            (trip, tuple(sorted(riding(held).items())), slack[trip]): held
            for trip, held in enumerate(by_trip(frame, draft))
            if fractions[trip] <= limit
        }

    def _fewest(self, trip: int, units: dict[int, int], slack: Slack, limit: int) -> Held | None:
        """The loads of a trip as they were, else with the fewest changes."""
        frame, former = self.frame, self.former
        if not units:
            return {}
        held = as_before(frame, trip, units, slack, former=former, limit=limit)
        if held is not None:
            return held
        seconds = min(_TRIP_SECONDS, max(0.05, self.watch.left()))
        run = run_within(self.limits, seconds, self.watch)
        held = closest_trip(frame, trip, units, slack, run, former=former, limit=limit)
        if held is None:
            return None
        return among_fewer_people(frame, trip, held, slack, run, former=former, limit=limit)
