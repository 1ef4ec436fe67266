"""Pack light for body: on steep ground a pack is no large share of its carrier's body mass.

On fixed ropes and legs of `steep_ground_deg` or more, for everybody who is not given as
strong: pack gross and what is worn <= `pack_share_of_body_percent` of body mass. Worn is the more
of two figures: flying mass less body mass, where both are given, and the listed things of the
person that are worn, or in use on the leg. Above `pack_emergency_percent`
a finding of its own says that this is for emergencies only.

Documents: offence-manual, combat-load, infantry-manual.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.replay import Replay
from solver.checker.queries.telling import kg, trip_where, trip_words
from solver.plan import Finding
from solver.problem import LegMode, NeedKind, Person, Trip
from solver.quantities import share_down

RULE = "pack_light_for_body"


def pack_light_for_body(replay: Replay) -> Iterator[Finding]:
    """Each person's heaviest pack on steep ground, where it is too heavy for the body."""
    heaviest: dict[str, tuple[int, int, Person, Trip]] = {}
    for record in replay.records:
        if not _is_steep(replay, record.trip):
            continue
        for burden in record.burdens:
            person = burden.person
            carried_g = burden.pack_g + _worn_g(replay, person, record.trip)
            known = heaviest.get(person.person_id)
            if not person.is_strong and (known is None or carried_g > known[0]):
                heaviest[person.person_id] = carried_g, burden.pack_g, person, record.trip
    for carried_g, pack_g, person, trip in heaviest.values():
        yield from _judge(replay, (pack_g, carried_g - pack_g), person, trip)


def _worn_g(replay: Replay, person: Person, trip: Trip) -> int:
    """What a person has on the body beside the pack, as far as the request gives it [g]."""
    listed_g = sum(
        item.mass_g * item.count
        for item in replay.facts.problem.gear
        if item.owner_id == person.person_id
        and (item.need.kind is NeedKind.WORN or trip.leg.mode in item.in_use_on)
    )
    if person.flying_mass_g is None or person.body_mass_g is None:
        return listed_g
    return max(listed_g, person.flying_mass_g - person.body_mass_g)


def _is_steep(replay: Replay, trip: Trip) -> bool:
    if trip.leg.mode is LegMode.FIXED_ROPE:
        return True
    steepest = trip.leg.steepest_deg
    return steepest is not None and steepest >= replay.facts.problem.rules.number(
        "steep_ground_deg"
    )


def _judge(
    replay: Replay, masses_g: tuple[int, int], person: Person, trip: Trip
) -> Iterator[Finding]:
    pack_g, worn_g = masses_g
    carried_g = pack_g + worn_g
    rules = replay.facts.problem.rules
    worn = f" and {kg(worn_g)} worn or in use" if worn_g else ""
    pack = f"pack of {person.person_id} on {trip_words(trip)}: {kg(pack_g)}{worn}"
    where = (*trip_where(trip), ("person", person.person_id))
    if person.body_mass_g is None:
        words = f"{pack} on steep ground, and the body mass to judge it by is not given"
        yield Finding(RULE, words, carried_g, "g", where)
        return
    share = f"{pack} is {100 * carried_g / person.body_mass_g:.1f} % of the body"
    for setting, limit in (
        ("pack_share_of_body_percent", "at most {} % on steep ground"),
        ("pack_emergency_percent", "above {} % is for emergencies only"),
    ):
        percent = rules.whole(setting)
        over_g = carried_g - share_down(amount=person.body_mass_g, percent=percent)
        if over_g > 0:
            words = f"{share}, {limit.format(percent)}, {kg(over_g)} over"
            yield Finding(RULE, words, over_g, "g", where)
