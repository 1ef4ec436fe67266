"""What flies in one direction: people with their mass, and classes of identical units."""

from __future__ import annotations

from dataclasses import dataclass

from solver.model.instance.cargo import Cargo, CargoKind
from solver.model.instance.world import World
from solver.problem import Flight, FlightDirection, Item, NeedKind, Person, Problem, Purpose


@dataclass(frozen=True, slots=True)
class Piece:
    """`count` identical units; mass and volume are those of one [g, mL].

    `sets` are the night sets and `fuel_ml` the fuel in one; both are `cook_group_id`'s.
    """

    unit_id: str
    count: int
    mass_g: int
    volume_ml: int
    item: Item | None = None
    sets: int = 0
    fuel_ml: int = 0
    cook_group_id: str | None = None

    @property
    def holds_fuel(self) -> bool:
        """Whether it is fuel to an aircraft, be it a cook group's or of the gear."""
        gear_fuel = self.item is not None and self.item.purpose is Purpose.FUEL
        return self.fuel_ml > 0 or gear_fuel


@dataclass(frozen=True, slots=True)
class Freight:
    """All that flies in one direction, with its flights in order and people's masses [g]."""

    problem: Problem
    direction: FlightDirection
    flights: tuple[Flight, ...]
    people: tuple[Person, ...]
    mass_g: dict[str, int]
    pieces: tuple[Piece, ...]

    @property
    def is_inbound(self) -> bool:
        """Whether these flights bring people to the start place."""
        return self.direction is FlightDirection.FLY_IN

    @property
    def total_g(self) -> int:
        """People and pieces together [g]."""
        return sum(self.mass_g.values()) + sum(p.count * p.mass_g for p in self.pieces)


def read_freight(world: World, direction: FlightDirection) -> Freight:
    """What stands at the start place before day 1 flies in, what is there at the end flies out."""
    problem = world.problem
    inbound = direction is FlightDirection.FLY_IN
    pieces = [
        _piece(world, cargo, count)
        for cargo in world.cargo
        if (count := _begins(cargo) if inbound else _left(cargo))
    ]
    pieces += [
        Piece(f"sled/{sled.sled_id}", 1, sled.tare_g, 0)
        for sled in problem.sleds
        if inbound or _rests_at(world, sled.sled_id) == problem.start_place
    ]
    return Freight(
        problem=problem,
        direction=direction,
        flights=tuple(f for f in problem.flights if f.direction is direction),
        people=problem.roster,
        mass_g={p.person_id: _flying_mass_g(problem, p, inbound=inbound) for p in problem.roster},
        pieces=tuple(pieces),
    )


def _begins(cargo: Cargo) -> int:
    """How many of a class stand at the start before anybody moves [units]."""
    return cargo.count if cargo.born == 0 else 0


def _left(cargo: Cargo) -> int:
    """How many of a class are not used up by the end, when everything is back [units]."""
    if cargo.dies is not None:
        return 0
    return cargo.count - sum(units for _, _, units in cargo.uses)


def _piece(world: World, cargo: Cargo, count: int) -> Piece:
    sets = fuel_ml = 0
    group = cargo.cook_group_id
    match cargo.kind:
        case CargoKind.BAG:
            night_set = next(s for s in world.problem.night_sets if s.unit_id == cargo.unit_id)
            sets, group = night_set.sets_per_bag, night_set.cook_group_id
        case CargoKind.FULL:
            fuel_ml = next(
                container.content_ml
                for its_group in world.problem.cook_groups
                for container in its_group.containers
                if container.unit_id == cargo.unit_id
            )
        case CargoKind.OPEN:
            # Spells of one container differ in what is left; the one that lasts is meant.
            fuel_ml = next(
                spell.left_ml
                for burn in world.needs.burns
                for spell in burn.open_spells
                if spell.to_day is None
                and f"{spell.container.unit_id}/open-{spell.number}" == cargo.unit_id
            )
    return Piece(
        unit_id=cargo.unit_id,
        count=count,
        mass_g=cargo.mass_g,
        volume_ml=cargo.volume_ml if cargo.item is None else cargo.item.volume_ml,
        item=cargo.item,
        sets=sets,
        fuel_ml=fuel_ml,
        cook_group_id=group,
    )


def _rests_at(world: World, sled_id: str) -> str:
    """Where a sled is left when all is over."""
    place = world.problem.start_place
    for trip in world.timeline.trips:
        if sled_id in trip.sled_ids:
            place = trip.to_place
    return place


def _flying_mass_g(problem: Problem, person: Person, *, inbound: bool) -> int:
    """Somebody's mass in the aircraft, the first lunch in the hand on the way in [g]."""
    lunch_g = person.first_lunch_g if inbound else 0
    if person.flying_mass_g is not None:
        return person.flying_mass_g + lunch_g
    worn_g = round(1000 * problem.rules.number("worn_flying_kg"))
    return lunch_g + (0 if person.body_mass_g is None else person.body_mass_g + worn_g)


def wearers(freight: Freight, item: Item) -> tuple[str, ...]:
    """Who brings a worn item along by being there; nobody where it is not worn."""
    if item.need.kind is not NeedKind.WORN:
        return ()
    return tuple(
        person.person_id
        for person in freight.people
        if item.owner_id in (None, person.person_id)
        and item.rope_team_id in (None, person.rope_team_id)
    )
