"""A re-plan without a search: what somebody can carry no more goes to those with most room.

On each trip to come the largest pieces go first, each to the pack or sled that is fullest by the
least share of its limit after taking it. Personal things stay with their owner, or in the rope
team of one who is spared. The independent check says whether the result is a plan.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from solver.checker.ledger.facts import Facts
from solver.plan import Load, Plan, Stowed, TripLoads
from solver.problem import Item, Person, Problem, Trip
from solver.stress.struck import stays_on_owner

_NO_ROOM = 10.0
"""Share of a limit above which nothing is put anywhere, whatever the mass [1]."""


@dataclass(slots=True)
class _Room:
    """One pack or sled on a trip, with what it may hold [g, mL]."""

    person: Person
    sled_id: str | None
    limit_g: int
    limit_ml: int
    mass_g: int
    volume_ml: int
    units: list[Stowed]

    def share_with(self, one: Stowed) -> float:
        """How full it is with one more [1]."""
        if self.volume_ml + one.volume_ml > self.limit_ml or self.limit_g <= 0:
            return _NO_ROOM
        return (self.mass_g + one.mass_g) / self.limit_g

    def take(self, one: Stowed) -> None:
        """Put one more in."""
        self.mass_g += one.mass_g
        self.volume_ml += one.volume_ml
        self.units.append(one)


def handed_over(facts: Facts, plan: Plan) -> Plan:
    """The plan with loads of sleds that are not hauled and of spared people on others."""
    problem = facts.problem
    history = problem.history
    day = 0 if history is None else history.day
    trips = {(t.day, t.step, t.from_place, t.to_place): t for t in facts.timeline.trips}
    return replace(
        plan,
        trips=tuple(
            _trip(problem, made, loads)
            if loads.day > day
            and (made := trips.get((loads.day, loads.step, loads.from_place, loads.to_place)))
            else loads
            for loads in plan.trips
        ),
    )


def _trip(problem: Problem, trip: Trip, loads: TripLoads) -> TripLoads:
    items = {item.unit_id: item for item in problem.gear}
    rooms: list[_Room] = []
    loose: list[tuple[str, Stowed]] = []
    for load in loads.loads:
        person = problem.person(load.person_id)
        pack = _pack(problem, trip, load, person)
        rooms.append(pack)
        sled = _sled(problem, trip, load, person)
        for one in load.pack:
            item = items.get(one.unit_id)
            is_shared = item is None or item.owner_id is None
            spared = person.load_limit_g is not None and not (item and stays_on_owner(item))
            without_sled = sled is None and load.sled_id is not None and is_shared
            _keep_or_loosen(pack, one, loose, is_loose=spared or without_sled)
        if sled is not None:
            rooms.append(sled)
            for one in load.sled:
                _keep_or_loosen(sled, one, loose, is_loose=False)
        else:
            loose += [(load.person_id, one) for one in _singles(load.sled)]
    for holder_id, one in sorted(
        loose, key=lambda lost: _turn(items.get(lost[1].unit_id), lost[1])
    ):
        fitting = [r for r in rooms if _may_take(problem, r, items.get(one.unit_id), holder_id)]
        if fitting:
            best = min(fitting, key=lambda r: (_has_like(r, one, items), r.share_with(one)))
            best.take(one)
    return replace(loads, loads=tuple(_packed(load, rooms) for load in loads.loads))


def _keep_or_loosen(
    room: _Room, stowed: Stowed, loose: list[tuple[str, Stowed]], *, is_loose: bool
) -> None:
    for one in _singles((stowed,)):
        if is_loose:
            loose.append((room.person.person_id, one))
        else:
            room.take(one)


def _singles(stowed: tuple[Stowed, ...]) -> list[Stowed]:
    return [replace(one, count=1) for one in stowed for _ in range(one.count)]


def _has_like(room: _Room, one: Stowed, items: Mapping[str, Item]) -> bool:
    """Whether something of the same purpose or kind is in there already: such are kept apart."""
    item = items.get(one.unit_id)
    if item is None:
        return False
    inside = [items[unit.unit_id] for unit in room.units if unit.unit_id in items]
    same_kind = item.apart_kind is not None and any(i.apart_kind == item.apart_kind for i in inside)
    return same_kind or (
        item.purpose is not None and any(i.purpose is item.purpose for i in inside)
    )


def _turn(item: Item | None, one: Stowed) -> tuple[bool, bool, int]:
    """What has the fewest places to go to goes first, then what is heaviest."""
    is_shared = item is None or item.owner_id is None
    return is_shared, item is None or item.rope_team_id is None, -one.mass_g


def _may_take(problem: Problem, room: _Room, item: Item | None, holder_id: str) -> bool:
    """Whether a unit may go there: an owner's things to the owner, or to a spared one's team."""
    if item is None or item.owner_id is None:
        team = None if item is None else item.rope_team_id
        return room.person.load_limit_g is None and team in {None, room.person.rope_team_id}
    owner = problem.person(item.owner_id)
    if owner.load_limit_g is not None and owner.kit_to_rope_team and not stays_on_owner(item):
        same_team = room.person.rope_team_id == owner.rope_team_id
        return same_team and room.person.load_limit_g is None
    return room.person.person_id in {owner.person_id, holder_id}


def _pack(problem: Problem, trip: Trip, load: Load, person: Person) -> _Room:
    limit_g = person.caps.pack_on(trip.leg.mode, trip.direction)
    lashed = 100 + problem.rules.pack_volume_allowance_percent
    limit_ml = person.pack_volume_ml * lashed // 100
    return _Room(person, None, limit_g, limit_ml, load.water_g + load.lunch_g, 0, [])


def _sled(problem: Problem, trip: Trip, load: Load, person: Person) -> _Room | None:
    """The room on the sled of a load, None where it is not hauled on the trip."""
    for sled in problem.sleds:
        if sled.sled_id == load.sled_id and sled.sled_id in trip.sled_ids:
            limit_g = min(sled.mass_limit_g, person.caps.sled_g)
            return _Room(person, sled.sled_id, limit_g, sled.volume_ml, sled.tare_g, 0, [])
    return None


def _packed(load: Load, rooms: list[_Room]) -> Load:
    mine = [room for room in rooms if room.person.person_id == load.person_id]
    sled = next((room for room in mine if room.sled_id is not None), None)
    pack = next(room for room in mine if room.sled_id is None)
    return replace(
        load,
        pack=_together(pack.units),
        sled_id=None if sled is None else sled.sled_id,
        sled=() if sled is None else _together(sled.units),
    )


def _together(units: list[Stowed]) -> tuple[Stowed, ...]:
    counts: dict[str, Stowed] = {}
    for one in units:
        known = counts.get(one.unit_id)
        counts[one.unit_id] = one if known is None else replace(known, count=known.count + 1)
    return tuple(counts.values())
