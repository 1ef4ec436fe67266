"""The people of a trip as the soft constraints see them: with their sleds and on their ropes."""

from __future__ import annotations

from dataclasses import dataclass

from solver.model.instance.world import World
from solver.model.rows import sled_carrier
from solver.model.rules.load_caps import on_body_g
from solver.problem import Person, Trip


@dataclass(frozen=True, slots=True)
class Mover:
    """A person on a trip: water and lunch in the pack [g], the sled hauled or "" and its tare."""

    person: Person
    on_body_g: int
    sled_id: str
    tare_g: int


def movers_of(world: World, trip: Trip) -> list[Mover]:
    """Everybody on a trip, in the order of its party."""
    sleds = {sled.hauler_id: sled for sled in world.problem.sleds if sled.sled_id in trip.sled_ids}
    party = []
    for person_id in trip.person_ids:
        person, sled = world.problem.person(person_id), sleds.get(person_id)
        body_g = on_body_g(world, trip, person)
        if sled is None:
            party.append(Mover(person, body_g, "", 0))
        else:
            party.append(Mover(person, body_g, sled_carrier(sled.sled_id), sled.tare_g))
    return party


def ropes_of(party: list[Mover]) -> list[list[Mover]]:
    """Rope teams, each with its lead first: the first guide, else the first of the roster."""
    teams: dict[str, list[Mover]] = {}
    for one in party:
        teams.setdefault(one.person.rope_team_id, []).append(one)
    ropes = []
    for team in teams.values():
        lead = next((number for number, one in enumerate(team) if one.person.is_guide), 0)
        ropes.append([team[lead], *team[:lead], *team[lead + 1 :]])
    return ropes
