"""A world with some of its pins: whether it has a plan, and which rule forbids one."""

from __future__ import annotations

from collections.abc import Sequence

from solver.model.formulation.build_frame import rows_of, sort_rows
from solver.model.formulation.frame import Frame
from solver.model.formulation.redundant_losses import without_redundant_losses
from solver.model.infeasible.overloads import tell_overloads
from solver.model.infeasible.shortages import describe_shortages
from solver.model.infeasible.statements import STRUCTURE
from solver.model.instance.world import World
from solver.model.rows import PinRow, Row
from solver.model.run import Run
from solver.model.solvers.eased_rule import least_easing
from solver.model.solvers.relaxation_refusals import is_impossible, least_excess, least_shortage
from solver.model.solvers.relaxation_rows import build_relaxation
from solver.model.solvers.solve_one_piece import has_no_plan, is_small_enough
from solver.outcome import Conflict
from solver.progress import Watch
from solver.rulebook import rule

_SECONDS = 10.0
"""Time for one question to the linear solver; each takes a small part of it [s]."""

_WHOLE_SECONDS = 3.0
"""Time for one question about whole units [s]."""


class PinnedWorld:
    """The rows of a world, those of its pins apart."""

    def __init__(self, world: World, seed: int, watch: Watch) -> None:
        """Build the rows once. Only a wish to stop ends a question, not the time of the search."""
        rows = rows_of(world)
        self.world = world
        self.pins = [row for row in rows if isinstance(row, PinRow)]
        self.others: list[Row] = [row for row in rows if not isinstance(row, PinRow)]
        self._run = Run(_WHOLE_SECONDS, seed=seed, steady=True, should_stop=watch.should_stop)

    def refuses_divisible(self, pins: Sequence[PinRow]) -> bool:
        """Whether not even divisible loads have a plan with these pins."""
        relaxation = build_relaxation(self._frame(self.others, pins), steady=True)
        return is_impossible(relaxation, seconds=_SECONDS, divisible=True)

    def refuses_whole(self, pins: Sequence[PinRow]) -> bool:
        """Whether whole units have none; False where that could not be shown."""
        frame = self._frame(self.others, pins)
        return is_small_enough(frame) and has_no_plan(frame, self._run)

    def broken_rule(self, pins: Sequence[PinRow]) -> Conflict:
        """The rule that these pins break, so that there is no plan, and by how much."""
        frame = self._frame(self.others, pins)
        over = least_excess(
            build_relaxation(frame, with_excess=True, steady=True), seconds=_SECONDS
        )
        if over:
            return tell_overloads(frame, over, seconds=_SECONDS)[0]
        relaxation = build_relaxation(
            frame,
            with_excess=over is None,
            with_shortage=True,
            short_is_unused=True,
            steady=True,
        )
        if short := least_shortage(relaxation, seconds=_SECONDS):
            return describe_shortages(frame, short)[0]
        return self._not_there(pins) or self._of_whole_units(frame)

    def _not_there(self, pins: Sequence[PinRow]) -> Conflict | None:
        """Pins of more units than can be there, whatever the other rules say."""
        structure = [row for row in self.others if isinstance(row, STRUCTURE)]
        relaxation = build_relaxation(
            self._frame(structure, pins), with_shortage=True, pins_lack=True, steady=True
        )
        short = least_shortage(relaxation, seconds=_SECONDS)
        if not short:
            return None
        units = round(sum(amount for _, amount in short))
        sentence = rule("units_conserved").sentence
        return Conflict(
            "units_conserved",
            f"More units are pinned than can be there by then: {units} too many. {sentence}",
            amount=units,
            unit="units",
        )

    def _of_whole_units(self, frame: Frame) -> Conflict:
        """The first rule on sharing out that whole units break, or that none is known."""
        broken = least_easing(frame, self._run)
        if not broken:
            return Conflict("pins_kept", "No way of sharing out whole units then keeps every rule.")
        told = [
            f"{rule(rule_id).sentence} Here it is missed by {amount} {rule(rule_id).unit}."
            for rule_id, amount in broken.items()
        ]
        first = next(iter(broken))
        return Conflict(first, " ".join(told), amount=broken[first], unit=rule(first).unit)

    def _frame(self, rows: Sequence[Row], pins: Sequence[PinRow]) -> Frame:
        return without_redundant_losses(sort_rows(self.world, [*rows, *pins]))
