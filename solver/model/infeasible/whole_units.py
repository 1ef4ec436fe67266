"""Single units that are too large for every pack and sled that may take them."""

from __future__ import annotations

from solver.model.formulation.frame import Frame
from solver.outcome import Conflict, Remedy, RemedyKind
from solver.rulebook import rule


def units_that_fit_nowhere(frame: Frame) -> tuple[Conflict, ...]:
    """A conflict for each unit that must ride on a trip and fits into nobody's load alone."""
    told: dict[int, Conflict] = {}
    for cargo, trip_index in sorted(frame.settled, key=lambda ride: (ride[1], ride[0])):
        if cargo in told:
            continue
        broken = _broken(frame, cargo, trip_index)
        if broken is None:
            continue
        thing, trip = frame.world.cargo[cargo], frame.world.timeline.trips[trip_index]
        rule_id, of_mass = broken
        size = f"{thing.mass_g / 1000:.1f} kg" if of_mass else f"{thing.volume_ml / 1000:.1f} L"
        told[cargo] = Conflict(
            rule_id,
            f"Day {trip.day}, {trip.from_place} to {trip.to_place}: {thing.unit_id} of {size} "
            f"goes into no pack and onto no sled. {rule(rule_id).sentence}",
            (
                Remedy(RemedyKind.OTHER, f"{thing.unit_id} in smaller parts"),
                Remedy(RemedyKind.LEAVE_OUT, f"without {thing.unit_id}"),
            ),
            where=(
                ("unit", thing.unit_id),
                ("day", trip.day),
                ("step", trip.step),
                ("from_place", trip.from_place),
                ("to_place", trip.to_place),
            ),
        )
    return tuple(told.values())


def _broken(frame: Frame, cargo: int, trip: int) -> tuple[str, bool] | None:
    """The rule that keeps one unit out of the last carrier tried; None where one takes it."""
    last = None
    for carrier in frame.may_carry[cargo, trip]:
        last = next(
            (
                (row.rule_id, row.of_mass)
                for row in frame.load_rows[trip]
                if row.person_id == carrier.person_id
                and (row.in_sled if carrier.is_sled else row.in_pack)
                and row.fixed + frame.weight(cargo, trip, of_mass=row.of_mass) > row.cap
            ),
            None,
        )
        if last is None:
            return None
    return last
