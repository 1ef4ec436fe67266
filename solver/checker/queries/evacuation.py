"""Whether an ill person could be taken down while the others stay: who, with what, how heavy.

From one camp two parties are made: those who leave, with the one who is ill, and those who
stay. Each must be a party that the other rules accept, with kit of its own. Only what is sure to
be at the camp counts, and only people who sleep there: others may be too far to wait for.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, replace

from solver.checker.ledger.facts import Facts
from solver.checker.ledger.once import once
from solver.checker.queries.at_night import sleds_at, sure_units
from solver.checker.queries.evacuation_load import (
    ONE_EACH,
    Things,
    legs_home,
    mass_of_tents_g,
    mass_taken_g,
    mass_that_may_be_taken_g,
)
from solver.checker.queries.evacuation_parties import PartySearch
from solver.checker.queries.parties import least_people
from solver.checker.queries.words import units_words
from solver.problem import NeedKind, Night, Person, Purpose


@dataclass(frozen=True, slots=True)
class Split:
    """Two parties made of those who sleep at a place on a night, one with the person ill.

    `missing` says in words what forbids it; where it is empty, the split is possible. `load_g`
    is all that those who leave would take, `room_g` what they may carry and haul.
    """

    person_id: str
    day: int
    place_id: str
    leaving: tuple[str, ...]
    staying: tuple[str, ...]
    missing: tuple[str, ...]
    load_g: int = 0
    room_g: int = 0


@once
def splits(facts: Facts) -> tuple[Split, ...]:
    """A split for each person and night away from the start place that the request asks about.

    Where it names nobody, it asks about everybody and every night. Several rules ask for the
    same splits, which are looked for once.
    """
    return tuple(_splits(facts))


def _splits(facts: Facts) -> Iterator[Split]:
    wishes = {wish.person_id: wish.day or 1 for wish in facts.problem.evacuations}
    known: dict[tuple[object, ...], Split] = {}
    for night in facts.timeline.nights:
        things: dict[str, tuple[Things, tuple[object, ...]]] = {}
        for person in facts.problem.roster:
            place_id = night.place_of(person.person_id)
            asked = not wishes or night.day >= wishes.get(person.person_id, night.day + 1)
            if not asked or place_id == facts.problem.start_place:
                continue
            if place_id not in things:
                there = _things_at(facts, night, place_id)
                alike: tuple[object, ...] = (
                    place_id,
                    night.sleepers_at(place_id),
                    *sleds_at(facts, night, (place_id,)),
                    *((purpose, tuple(units)) for purpose, units in there.items()),
                )
                things[place_id] = there, alike
            there, seen = things[place_id]
            # Most nights are like the one before: the same people, things and sleds there.
            key = (person.person_id, *seen)
            if key not in known:
                known[key] = _split(facts, person, night, there)
            yield replace(known[key], day=night.day)


def _things_at(facts: Facts, night: Night, place_id: str) -> Things:
    things: Things = {}
    for item in facts.problem.gear:
        if item.purpose is not None:
            mass_g = 0 if item.need.kind is NeedKind.WORN else item.mass_g
            units = [(mass_g, item.shelter_places)] * sure_units(facts, item, night, place_id)
            things.setdefault(item.purpose, []).extend(units)
    return {purpose: sorted(units) for purpose, units in things.items()}


def _split(facts: Facts, ill: Person, night: Night, things: Things) -> Split:
    place_id = night.place_of(ill.person_id)
    there = [name for name in night.sleepers_at(place_id) if name != ill.person_id]
    others = [facts.problem.person(name) for name in there]
    hazards = [leg.crevasse_hazard for leg in legs_home(facts, place_id)]
    search = PartySearch(facts, ill, max(least_people(facts, hazard) for hazard in hazards))
    found = search.best(others)
    if found is None:
        missing = (search.people_missing(others), *_kit_missing(facts, things, None))
        return Split(ill.person_id, night.day, place_id, (), (), missing)
    leaving, staying = found
    missing = tuple(_kit_missing(facts, things, found))
    load_g = 0 if missing else mass_taken_g(facts, found, place_id, things)
    return Split(
        ill.person_id,
        night.day,
        place_id,
        tuple(person.person_id for person in leaving),
        tuple(person.person_id for person in staying),
        missing,
        load_g,
        mass_that_may_be_taken_g(facts, leaving, place_id, sleds_at(facts, night, (place_id,))),
    )


def _kit_missing(
    facts: Facts, things: Things, parties: tuple[list[Person], list[Person]] | None
) -> Iterator[str]:
    """What is not there twice, in words; shelters are measured only where the parties are known."""
    teams = _rope_teams(parties[1]) if parties else 1
    kits = facts.problem.rules.whole("least_rescue_kits")
    needed = {
        Purpose.ROPE: 1 + teams,
        Purpose.RESCUE_KIT: kits + max(kits, teams),
        Purpose.SHELTER: 2,
        **dict.fromkeys(ONE_EACH, 2),
    }
    for purpose, count in needed.items():
        lacks = count - len(things.get(purpose, ()))
        if lacks > 0:
            yield units_words(lacks, purpose).replace(" ", " more ", 1)
        elif purpose is Purpose.SHELTER and parties:
            leaving, staying = (len(people) for people in parties)
            if mass_of_tents_g(things, leaving, staying) is None:
                yield f"shelters that cover {leaving} and {staying} people apart"


def _rope_teams(people: list[Person]) -> int:
    """How many ropes they need: people left alone of their team tie in with another [1]."""
    members = Counter(person.rope_team_id for person in people)
    return max(1, sum(count > 1 for count in members.values()))
