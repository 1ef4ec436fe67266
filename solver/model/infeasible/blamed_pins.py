"""Which pins leave no plan, and which rule they break with which amount.

A pin that no plan can keep by itself is found by looking at its rows. Others are found by
QuickXplain (U. Junker, "QuickXplain: preferred explanations and relaxations for over-constrained
problems", AAAI 2004): halves of the pins are set free as long as the rest still leaves no plan.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

from solver.model.formulation.frame import Frame
from solver.model.infeasible.pin_words import tell_pins
from solver.model.infeasible.pinned_rules import PinnedWorld
from solver.model.instance.world import World
from solver.model.rows import OwnRow, PinRow, Row
from solver.outcome import Conflict
from solver.progress import Watch

_MOST_TOLD = 5
"""How many groups of pins that clash are told at most [1]."""

_Refuses = Callable[[Sequence[PinRow]], bool]


def blame_pins(frame: Frame, watch: Watch, *, seed: int = 1) -> tuple[Conflict, ...]:
    """A conflict for each pin, or few pins together, without which there might be a plan.

    Empty where there is no plan without any pins either, or where that could not be shown.
    """
    pinned = PinnedWorld(frame.world, seed, watch)
    left = [row for row in pinned.pins if row not in (alone := dict(_alone(pinned)))]
    told = [tell_pins(frame.world, [row], conflict) for row, conflict in alone.items()]
    for refuses in (pinned.refuses_divisible, pinned.refuses_whole):
        if refuses(()):
            break
        while len(told) < _MOST_TOLD and not watch.should_stop() and left and refuses(left):
            core = smallest_clash(left, refuses)
            told.append(tell_pins(frame.world, core, pinned.broken_rule(core)))
            left = [row for row in left if row not in core]
    return tuple(told)


def smallest_clash(pins: Sequence[PinRow], refuses: _Refuses) -> list[PinRow]:
    """Pins that together leave no plan, none of which can be left out; all of them leave none."""

    def clash(kept: list[PinRow], added: bool, pins: list[PinRow]) -> list[PinRow]:  # noqa: FBT001
        if added and refuses(kept):
            return []
        if len(pins) == 1:
            return pins
        first, second = pins[: len(pins) // 2], pins[len(pins) // 2 :]
        of_second = clash([*kept, *first], True, second)  # noqa: FBT003
        of_first = clash([*kept, *of_second], bool(of_second), first)
        return [*of_first, *of_second]

    return clash([], False, list(pins))  # noqa: FBT003


def _alone(pinned: PinnedWorld) -> Iterator[tuple[PinRow, Conflict]]:
    """Pins of units that are not there, or that a rule keeps with somebody else."""
    world = pinned.world
    for row in pinned.pins:
        conflict = _not_there(world, row) or _not_theirs(world, row, pinned.others)
        if conflict is not None:
            yield row, conflict


def _not_there(world: World, row: PinRow) -> Conflict | None:
    there = 0 if row.cargo is None else world.cargo[row.cargo].count
    if row.at_least <= there:
        return None
    words = f"There are {there} of them." if there else "None of them exists on that trip."
    missing = row.at_least - there
    return Conflict("units_conserved", words, amount=missing, unit="units")


def _not_theirs(world: World, row: PinRow, others: Sequence[Row]) -> Conflict | None:
    pin = world.problem.pins[row.pin]
    for own in others:
        if not isinstance(own, OwnRow) or own.cargo != row.cargo:
            continue
        if own.trips is not None and row.trip not in own.trips:
            continue
        may = pin.person_id in own.person_ids
        if not may or (pin.on_sled and row.trip in own.pack_trips):
            names = " or ".join(own.person_ids)
            place = f"in the pack of {names}" if row.trip in own.pack_trips else f"with {names}"
            words = f"On that trip it rides {place}."
            return Conflict(own.rule_id, words, amount=row.at_least, unit="units")
    return None
