"""Why there is no plan, as the wire has it: each cause with its place, pointer and remedies."""

from __future__ import annotations

from typing import TypedDict

from api_schema.plan_answer import (
    ConflictAnswer,
    ConflictTripAnswer,
    OccurrenceAnswer,
    RemedyAnswer,
)
from service.translate.read.requests import ReadRequest
from solver.outcome import Conflict, Occurrence, Remedy

_CAP_FIELDS = {
    "pack_cap_held": ("caps", "pack_g"),
    "sled_cap_held": ("caps", "sled_g"),
    "total_cap_held": ("caps", "total_g"),
    "pack_volume_held": ("pack_volume_ml",),
    "load_limit_held": ("load_limit_g",),
}
"""Where in a person the cap stands that a rule is about."""


class _Place(TypedDict):
    """The fields that conflicts and their other occurrences have in common."""

    rule_id: str
    message: str
    pointer: str | None
    person_id: str | None
    trip: ConflictTripAnswer | None
    night: int | None
    amount: int | None
    unit: str | None
    where: dict[str, str | int]


def write_conflict(conflict: Conflict, read: ReadRequest) -> ConflictAnswer:
    """One cause, with everywhere it shows and what would be allowed."""
    return ConflictAnswer(
        **_place(conflict, read),
        more=[OccurrenceAnswer(**_place(one, read)) for one in conflict.more],
        remedies=[_remedy(remedy) for remedy in conflict.remedies],
    )


def _place(told: Conflict | Occurrence, read: ReadRequest) -> _Place:
    where = dict(told.where)
    person_id = where.get("person")
    night = where.get("night")
    return {
        "rule_id": told.rule_id,
        "message": told.message,
        "pointer": pointer_of(told.rule_id, where, read),
        "person_id": person_id if isinstance(person_id, str) else None,
        "trip": _trip(where),
        "night": night if isinstance(night, int) else None,
        "amount": told.amount,
        "unit": told.unit or None,
        "where": where,
    }


def pointer_of(rule_id: str, where: dict[str, str | int], read: ReadRequest) -> str | None:
    """The part of the request that a rule is about at a place."""
    return read.pointer_of(_path(rule_id, where, read))


def _trip(where: dict[str, str | int]) -> ConflictTripAnswer | None:
    """The trip that a place names, None where it names none."""
    if not {"day", "step", "from_place", "to_place"} <= where.keys():
        return None
    return ConflictTripAnswer(
        day=int(where["day"]),
        step=int(where["step"]),
        from_=str(where["from_place"]),
        to=str(where["to_place"]),
    )


def _path(rule_id: str, where: dict[str, str | int], read: ReadRequest) -> tuple[str | int, ...]:
    """The part of the problem that a place is about: who, what, which group, or which day."""
    problem = read.problem
    if isinstance(pin := where.get("pin"), int):
        return ("pins", pin - 1)
    ids = {
        ("roster", "person"): [person.person_id for person in problem.roster],
        ("sleds", "sled"): [sled.sled_id for sled in problem.sleds],
        ("gear", "unit"): [item.unit_id for item in problem.gear],
        ("gear", "item"): [item.unit_id for item in problem.gear],
        ("cook_groups", "cook_group"): [group.cook_group_id for group in problem.cook_groups],
        ("flights", "flight"): [flight.flight_id for flight in problem.flights],
        ("route", "places", "place"): [place.place_id for place in problem.route.places],
    }
    for (*part, name), known in ids.items():
        if where.get(name) in known:
            index = known.index(str(where[name]))
            field = _cap_path(rule_id, where, read, index) if name == "person" else ()
            return (*part, index, *field)
    day = where.get("day", where.get("night"))
    return ("calendar", "days", day - 1) if isinstance(day, int) and day > 0 else ()


def _cap_path(
    rule_id: str, where: dict[str, str | int], read: ReadRequest, index: int
) -> tuple[str | int, ...]:
    """The field of a person that a rule is about: for packs the cap that holds on the trip."""
    if rule_id == "pack_cap_held":
        at = (where.get("day"), where.get("step"), where.get("from_place"), where.get("to_place"))
        for trip in read.timeline.trips:
            if (trip.day, trip.step, trip.from_place, trip.to_place) != at:
                continue
            by_leg = read.problem.roster[index].caps.pack_by_leg
            for number, (mode, direction, _) in enumerate(by_leg):
                if (mode, direction) == (trip.leg.mode, trip.direction):
                    return ("caps", "pack_by_leg", number)
    return _CAP_FIELDS.get(rule_id, ())


def _remedy(remedy: Remedy) -> RemedyAnswer:
    return RemedyAnswer(
        kind=remedy.kind.value,
        text=remedy.text,
        amount=remedy.amount,
        unit=remedy.unit or None,
        is_decision=remedy.is_decision,
    )
