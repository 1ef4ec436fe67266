"""What would be allowed where loads are too much; nothing that the request has already.

Changes to reserves come last, since they are a leader's decision.
"""

from __future__ import annotations

from collections.abc import Iterator
from math import ceil

from solver.model.formulation.frame import Frame
from solver.model.rows import LoadRow
from solver.outcome import Remedy, RemedyKind

_RAISED = {
    "pack_cap_held": "the pack cap",
    "pack_volume_held": "the pack volume",
    "sled_cap_held": "the sled cap",
    "sled_limit_held": "the mass limit of the sled",
    "sled_volume_held": "the volume of the sled",
    "total_cap_held": "the total cap",
    "load_limit_held": "the load limit",
}

_FULL_PERCENT = 100

_LEAST = 5e-4
"""Amounts that differ by less are one, but for the rounding of the linear solver [kg, L]."""


def person_remedies(frame: Frame, row: LoadRow, amount: float) -> tuple[Remedy, ...]:
    """What helps one person: a larger cap, less kit, the rope team."""
    return _last_reserves((*_for_person(frame, row, amount), *_fewer_nights(frame, row)))


def party_remedies(
    frame: Frame, row: LoadRow, amount: float, *, enough: float = 0.0
) -> tuple[Remedy, ...]:
    """What helps a party: larger caps, less gear, another carrier or carry; reserves last.

    `amount` is the least that helps. Where several trips need more, `enough` does on each of them.
    """
    unit, exact = _unit(row), ceil(1000 * max(amount, enough) - 1e-3)
    by = f"{'at least ' if enough < amount + _LEAST else ''}{_up(max(amount, enough))} {unit}"
    trip = frame.world.timeline.trips[row.trip]
    way = f"{trip.from_place} to {trip.to_place}"
    many = "raise the caps of the party" if len(trip.person_ids) > 1 else "raise the cap"
    found = [
        Remedy(RemedyKind.RAISE, f"{many} by {by} in all", exact, _small(row)),
        Remedy(RemedyKind.LEAVE_OUT, f"take {by} less", exact, _small(row)),
        Remedy(RemedyKind.SHARE, f"one more person who carries, or one more carry from {way}"),
    ]
    found += _setting(frame, row)
    return _last_reserves((*found, *_fewer_nights(frame, row)))


def _for_person(frame: Frame, row: LoadRow, amount: float) -> Iterator[Remedy]:
    person = frame.world.problem.person(row.person_id)
    unit, exact = _unit(row), ceil(1000 * amount - 1e-3)
    others = [
        other
        for other in frame.world.problem.roster
        if other.rope_team_id == person.rope_team_id and other.person_id != person.person_id
    ]
    if row.rule_id == "load_limit_held" and others and not person.kit_to_rope_team:
        yield Remedy(
            RemedyKind.SHARE,
            f"let the rope team carry sleeping kit of {row.person_id} (kit_to_rope_team)",
        )
    yield Remedy(
        RemedyKind.LEAVE_OUT,
        f"leave {_up(amount)} {unit} of what {row.person_id} owns at home, or send it with another "
        "party",
        exact,
        _small(row),
    )
    if row.rule_id in _RAISED:
        asked = ", if the physician agrees" if row.rule_id == "load_limit_held" else ""
        yield Remedy(
            RemedyKind.RAISE,
            f"raise {_RAISED[row.rule_id]} of {row.person_id} by {_up(amount)} {unit}{asked}",
            exact,
            _small(row),
        )
    yield from _setting(frame, row)


def _setting(frame: Frame, row: LoadRow) -> Iterator[Remedy]:
    """A number of the rules that leaves more room, unless it is already at its end."""
    rules = frame.world.problem.rules
    if row.rule_id == "pack_volume_held" and rules.pack_volume_allowance_percent < _FULL_PERCENT:
        yield Remedy(RemedyKind.OTHER, "lash more outside the packs (pack_volume_allowance)")
    if row.rule_id == "first_load_within_plan":
        percent = rules.whole("first_load_percent")
        if percent < _FULL_PERCENT:
            yield Remedy(
                RemedyKind.OTHER, f"raise the number first_load_percent, which is {percent}"
            )


def _fewer_nights(frame: Frame, row: LoadRow) -> Iterator[Remedy]:
    """Smaller reserves, where any that the trip may serve is held at or beyond its upper end."""
    trip, world = frame.world.timeline.trips[row.trip], frame.world
    groups = {world.problem.person(p).cook_group_id for p in trip.person_ids}
    ends = (trip.from_place, trip.to_place)
    for place_id in dict.fromkeys(
        reserve.place_id
        for reserve in world.problem.reserves
        if reserve.cook_group_id in groups
        and reserve.nights > 0
        and all(world.is_at_or_beyond(reserve.place_id, end) for end in ends)
    ):
        yield Remedy(RemedyKind.RESERVE, f"hold fewer nights in reserve at {place_id}")


def _last_reserves(remedies: tuple[Remedy, ...]) -> tuple[Remedy, ...]:
    return tuple(sorted(remedies, key=lambda remedy: remedy.is_decision))


def _up(amount: float) -> str:
    return f"{ceil(10 * amount - 1e-3) / 10:.1f}"


def _unit(row: LoadRow) -> str:
    return "kg" if row.of_mass else "L"


def _small(row: LoadRow) -> str:
    return "g" if row.of_mass else "mL"
