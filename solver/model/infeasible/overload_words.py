"""How overloads are told: who, on which trip, by how much, and what would be allowed instead."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil

from solver.model.formulation.frame import Frame
from solver.model.infeasible.overload_remedies import party_remedies, person_remedies
from solver.model.rows import LoadRow
from solver.outcome import Conflict, Occurrence
from solver.problem import Trip
from solver.rulebook import rule

_CAPS = {
    "pack_cap_held": "pack cap",
    "pack_volume_held": "pack volume",
    "sled_cap_held": "sled cap",
    "sled_limit_held": "sled's limit",
    "sled_volume_held": "sled's volume",
    "total_cap_held": "total cap",
    "load_limit_held": "load limit",
    "first_load_within_plan": "share of the caps that is allowed on the first day out",
}


@dataclass(frozen=True, slots=True)
class Overload:
    """Rows that must be passed, of one person or, without one, of a party, worst first [kg, L].

    `alone` says that each amount is needed on its own trip whatever happens on others; else the
    amounts are those of one way of sharing out over all the trips. `together` is what helps on all
    trips of a party at once, if it is more than what the worst of them lacks by itself.
    """

    person_id: str | None
    missing: tuple[tuple[LoadRow, float], ...]
    alone: bool
    together: float = 0.0


def tell_person(frame: Frame, overload: Overload) -> Conflict:
    """A conflict that names the person, with the worst trip and the others."""
    row, amount = overload.missing[0]
    trip = frame.world.timeline.trips[row.trip]
    return Conflict(
        row.rule_id,
        _person_words(frame, row, amount, _cap(frame, row), alone=overload.alone),
        person_remedies(frame, row, amount),
        ceil(1000 * amount - 1e-3),
        "g" if row.of_mass else "mL",
        (("person", row.person_id), *_where(trip)),
        tuple(_more(frame, row, more, by_person=True) for row, more in overload.missing[1:]),
    )


def _person_words(frame: Frame, row: LoadRow, amount: float, cap: str, *, alone: bool) -> str:
    """What one person has too much of, and that nobody else can help."""
    unit, who = "kg" if row.of_mass else "L", row.person_id
    trip, sentence = frame.world.timeline.trips[row.trip], rule(row.rule_id).sentence
    is_pinned = any(
        frame.world.problem.pins[pin.pin].person_id == who
        for pin in frame.pin_rows
        if pin.trip == row.trip
    )
    kit = "own kit and pins" if is_pinned else "own kit"
    if trip.person_ids == (who,):
        what = f"what must be moved by {who}, who goes alone here,"
    elif row.of_mass:
        what = f"what only {who} can carry ({kit}, water and lunch)"
    else:
        what = f"the {kit} of {who}, which nobody else carries,"
    if not alone:
        return (
            f"{_trip(trip)}: by one way of spreading it over the trips, {what} would be "
            f"{up(amount)} {unit} too much for the {cap}. No way keeps all trips within it. "
            f"{sentence}"
        )
    return f"{_trip(trip)}: {what} is {up(amount)} {unit} too much for the {cap}. {sentence}"


def tell_party(frame: Frame, overload: Overload) -> Conflict:
    """A conflict on the caps of a party, with the worst trip and the others."""
    row, amount = overload.missing[0]
    trip = frame.world.timeline.trips[row.trip]
    unit = "kg" if row.of_mass else "L"
    rows = [r for r in frame.load_rows[row.trip] if r.rule_id == row.rule_id]
    caps = sum({(r.person_id, r.in_pack): r.cap for r in rows}.values()) / 1000
    message = (
        f"{_trip(trip)}: what must be moved is {up(amount)} {unit} too much for the party's "
        f"{caps:.1f} {unit}, however it is shared out. {rule(row.rule_id).sentence}"
    )
    return Conflict(
        row.rule_id,
        message,
        party_remedies(frame, row, amount, enough=overload.together),
        ceil(1000 * amount - 1e-3),
        "g" if row.of_mass else "mL",
        _where(trip),
        tuple(_more(frame, row, more, by_person=False) for row, more in overload.missing[1:]),
    )


def tell_together(frame: Frame, missing: list[tuple[LoadRow, float]]) -> Conflict:
    """The conflict where no trip alone is too much, but all of them together are."""
    by_trip: dict[int, tuple[LoadRow, float]] = {}
    for row, amount in missing:
        kept, sum_of = by_trip.get(row.trip, (row, 0.0))
        by_trip[row.trip] = kept, sum_of + amount
    ordered = sorted(by_trip.values(), key=lambda pair: -pair[1])
    row, amount = ordered[0]
    trip = frame.world.timeline.trips[row.trip]
    unit = "kg" if row.of_mass else "L"
    message = (
        f"{_trip(trip)}: by one way of sharing out, {up(amount)} {unit} are too much. Each trip "
        "alone could be loaded within the caps, but all of them together cannot, with this "
        f"calendar. {rule(row.rule_id).sentence}"
    )
    return Conflict(
        row.rule_id,
        message,
        party_remedies(frame, row, amount),
        ceil(1000 * amount - 1e-3),
        "g" if row.of_mass else "mL",
        _where(trip),
        tuple(_more(frame, row, more, by_person=False) for row, more in ordered[1:]),
    )


def up(amount: float) -> str:
    """Kilograms or litres with one decimal, rounded up, so that as much more always does."""
    return f"{ceil(10 * amount - 1e-3) / 10:.1f}"


def _cap(frame: Frame, row: LoadRow) -> str:
    """A cap with its figure, and the reason of a load limit."""
    unit = "kg" if row.of_mass else "L"
    person = frame.world.problem.person(row.person_id)
    given = row.rule_id == "load_limit_held" and person.load_limit_reason
    why = f" ({given})" if given else ""
    return f"{_CAPS.get(row.rule_id, 'cap')} of {row.cap / 1000:.1f} {unit}{why}"


def _more(frame: Frame, row: LoadRow, amount: float, *, by_person: bool) -> Occurrence:
    trip = frame.world.timeline.trips[row.trip]
    unit = "kg" if row.of_mass else "L"
    return Occurrence(
        row.rule_id,
        f"{_trip(trip)}: {up(amount)} {unit} too much",
        ceil(1000 * amount - 1e-3),
        "g" if row.of_mass else "mL",
        ((("person", row.person_id),) if by_person else ()) + _where(trip),
    )


def _trip(trip: Trip) -> str:
    return f"Day {trip.day}, {trip.from_place} to {trip.to_place}"


def _where(trip: Trip) -> tuple[tuple[str, str | int], ...]:
    return (
        ("day", trip.day),
        ("step", trip.step),
        ("from_place", trip.from_place),
        ("to_place", trip.to_place),
    )
