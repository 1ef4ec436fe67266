"""Short questions about a problem: any plan, a clash, amounts that would do, bounds on the peak."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from solver.diagnosis import ClashMember, Names, Reach
from solver.model.assignment.build_plan import build_plan
from solver.model.flights import BackgroundFlights
from solver.model.formulation.build_frame import build_frame
from solver.model.formulation.frame import Frame
from solver.model.formulation.redundant_losses import without_redundant_losses
from solver.model.infeasible.any_plan import any_plan
from solver.model.infeasible.cap_amounts import CapAmounts, growth_of
from solver.model.infeasible.clash import find_clash
from solver.model.infeasible.clash_words import reaches_of, tell_clash
from solver.model.infeasible.nearest import nearest_draft
from solver.model.infeasible.statements import trip_names
from solver.model.peak_room import FullRow, PeakRoom, fullest_rows
from solver.model.solvers.relaxation import build_relaxation, least_peak_bound
from solver.outcome import Limits
from solver.plan import Plan
from solver.problem import Problem, Timeline
from solver.progress import Watch


@dataclass(frozen=True, slots=True)
class FirstPlan:
    """A plan, not checked yet, or that there is none; neither where time ran out."""

    plan: Plan | None = None
    infeasible: bool = False


@dataclass(frozen=True, slots=True)
class Inquiry:
    """A problem without faults, ready to be asked."""

    frame: Frame
    limits: Limits

    @classmethod
    def of(cls, problem: Problem, limits: Limits, timeline: Timeline | None = None) -> Inquiry:
        """Write the rows of a problem; who has read its timeline hands it on."""
        return cls(without_redundant_losses(build_frame(problem, timeline)), limits)

    def first_plan(self, watch: Watch) -> FirstPlan:
        """Any plan at all, on the ground and in the air."""
        with BackgroundFlights(self.frame.world, self.limits, watch) as flights:
            found = any_plan(self.frame, self.limits, watch)
            flown = flights.answer()
        if found.infeasible or flown.conflicts:
            return FirstPlan(infeasible=True)
        if found.draft is None or not flown.in_time:
            return FirstPlan()
        return FirstPlan(replace(build_plan(self.frame, found.draft), flights=flown.loads))

    def clash(self, watch: Watch) -> tuple[tuple[ClashMember, ...], tuple[Reach, ...]]:
        """Statements that clash, in words, and what further proofs lean on.

        Both are empty where divisible loads show no clash.
        """
        found = find_clash(self.frame, self.limits, watch)
        if found is None:
            return (), ()
        return tell_clash(self.frame.world, found), reaches_of(self.frame.world, found)

    def amounts(self, probed: Sequence[Problem]) -> list[int | None]:
        """How much of each change divisible loads need at least, from problems with some more."""
        amounts = self._cap_amounts(probed)
        least = [amounts.least(number) for number in range(len(probed))]
        return [None if one is None else one[0] for one in least]

    def amounts_together(
        self, probed: Sequence[Problem], pairs: Iterable[tuple[int, int]], watch: Watch
    ) -> Iterator[tuple[int, ...] | None]:
        """The same of pairs of changes by number, until the time ends."""
        amounts = self._cap_amounts(probed)
        for pair in pairs:
            if watch.left() <= 0:
                return
            yield amounts.least(*pair)

    def _cap_amounts(self, probed: Sequence[Problem]) -> CapAmounts:
        return CapAmounts(self.frame, [growth_of(self.frame, problem) for problem in probed])

    def bound(self, seconds: float) -> int | None:
        """What no plan's peak is below [1/10,000]; None where it is proven that there is none."""
        relaxation = build_relaxation(self.frame, steady=not self.limits.racing)
        if relaxation.impossible is not None:
            return None
        return least_peak_bound(relaxation, seconds=seconds)

    def peak_bounds(self, probed: Sequence[Problem], amount: int, watch: Watch) -> Iterator[int]:
        """Bounds on the peak with so much [g or mL] of each change alone, until the time ends.

        In 1/10,000.
        """
        room = PeakRoom(self.frame, [growth_of(self.frame, problem) for problem in probed])
        for number in range(len(probed)):
            if watch.left() <= 0:
                return
            yield room.bound(number, amount)

    def fullest_rows(self, plan: Plan) -> list[FullRow]:
        """The caps that a plan fills most, those of the peak first."""
        return fullest_rows(self.frame, plan)

    def heavy_person_trips(self, plan: Plan, over: int) -> int:
        """On how many trips of a person a load is over a share of a cap [1/10,000]."""
        heavy = {
            (full.row.trip, full.row.person_id)
            for full in self.fullest_rows(plan)
            if full.fraction > over
        }
        return len(heavy)

    def trip_names(self, trip: int) -> Names:
        """How a trip is named."""
        return trip_names(self.frame.world, trip)

    def nearest_plan(self, watch: Watch) -> Plan | None:
        """A plan that breaks as little as may be, a diagnosis and no plan to go by."""
        found = nearest_draft(self.frame, self.limits, watch)
        return None if found is None else build_plan(*found)
