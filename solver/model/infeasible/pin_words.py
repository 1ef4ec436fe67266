"""Pins in trade words: what each pins, and which rule they break."""

from __future__ import annotations

from dataclasses import replace

from solver.model.infeasible.statements import trip_names
from solver.model.instance.world import World
from solver.model.rows import PinRow
from solver.outcome import Conflict, Occurrence, Remedy, RemedyKind


def tell_pins(world: World, rows: list[PinRow], broken: Conflict) -> Conflict:
    """The conflict of some pins, at the first: the rule that they break; the others are named."""
    first, *others = sorted(rows, key=lambda row: row.pin)
    named = " and ".join(", ".join(_number(r) for r in rows).rsplit(", ", 1))
    if others:
        begin = f"Pins {named} cannot all be kept: {'; '.join(_words(world, r) for r in rows)}."
        leave = Remedy(RemedyKind.OTHER, f"leave out one of the pins {named}, or pin fewer units")
    else:
        begin = f"Pin {named} cannot be kept: {_words(world, first)}."
        leave = Remedy(RemedyKind.OTHER, f"leave out pin {named}, or pin fewer units")
    return replace(
        broken,
        message=f"{begin} {broken.message}",
        remedies=(leave, *broken.remedies),
        where=(("pin", first.pin + 1), *broken.where),
        more=tuple(
            Occurrence(
                broken.rule_id,
                f"Pin {_number(row)}: {_words(world, row)}",
                where=(("pin", row.pin + 1), *trip_names(world, row.trip)),
            )
            for row in others
        )
        + broken.more,
    )


def _number(row: PinRow) -> str:
    return str(row.pin + 1)


def _words(world: World, row: PinRow) -> str:
    pin, trip = world.problem.pins[row.pin], world.timeline.trips[row.trip]
    where = "on the sled" if pin.on_sled else "in the pack"
    return (
        f"{pin.count} {pin.unit_id} {where} of {pin.person_id} on day {trip.day}, "
        f"{trip.from_place} to {trip.to_place}"
    )
