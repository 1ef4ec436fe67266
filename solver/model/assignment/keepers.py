"""Who keeps what in a draft: each single piece of kit, and bundles of small alike things."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterator

from solver.model.assignment.draft import Draft
from solver.model.assignment.load_fractions import hauler_of, peak_of
from solver.model.formulation.frame import Frame
from solver.plan import Elsewhere, ElsewhereReason, Keeper
from solver.problem import Item
from solver.quantities import fraction_up

_Riders = dict[int, Counter[str]]
"""By trip, how many units are with each person."""


def keepers_of(frame: Frame, draft: Draft) -> tuple[Keeper, ...]:
    """The keeper of each kept thing that rides at all, in the order of the gear."""
    riders, room = _riders(frame, draft), _Room(frame, draft)
    return tuple(
        _keeper(frame, item, cargo, riders[cargo], room)
        for item, cargo in kept_things(frame)
        if riders[cargo]
    )


def kept_things(frame: Frame) -> Iterator[tuple[Item, int]]:
    """Single pieces of shared kit and bundles, each with its cargo, in the order of the gear."""
    cargo = {thing.unit_id: thing.index for thing in frame.world.cargo}
    for item in frame.world.problem.gear:
        if (item.is_single or item.is_bundle) and item.unit_id in cargo:
            yield item, cargo[item.unit_id]


def choose_keeper(item: Item, riders: _Riders, roster: list[str]) -> str:
    """Who the request names, else who has most units over all trips, the first of these."""
    if item.keeper_id is not None:
        return item.keeper_id
    total: Counter[str] = Counter()
    first: dict[str, int] = {}
    for trip in sorted(riders):
        for person_id, units in riders[trip].items():
            total[person_id] += units
            first.setdefault(person_id, trip)
    return min(total, key=lambda who: (-total[who], first[who], roster.index(who)))


def _keeper(frame: Frame, item: Item, cargo: int, riders: _Riders, room: _Room) -> Keeper:
    trips = frame.world.timeline.trips
    roster = [person.person_id for person in frame.world.problem.everybody]
    keeper = choose_keeper(item, riders, roster)
    on = sorted(riders)
    return Keeper(
        unit_id=item.unit_id,
        person_id=keeper,
        is_named=item.keeper_id is not None,
        from_day=trips[on[0]].day,
        to_day=trips[on[-1]].day,
        trips=len(on),
        elsewhere=tuple(
            Elsewhere(
                trips[trip].day,
                trips[trip].step,
                trips[trip].from_place,
                trips[trip].to_place,
                person_id,
                riders[trip][person_id],
                room.reason(cargo, trip, keeper, riders[trip][person_id]),
            )
            for trip in on
            for person_id in roster
            if person_id != keeper and riders[trip][person_id]
        ),
    )


def _riders(frame: Frame, draft: Draft) -> dict[int, _Riders]:
    haulers = hauler_of(frame)
    riders: dict[int, _Riders] = defaultdict(lambda: defaultdict(Counter))
    for (cargo, trip, carrier_id), units in draft.carried.items():
        if units:
            riders[cargo][trip][haulers.get(carrier_id, carrier_id)] += units
    return riders


class _Room:
    """What each person could still take on each trip."""

    def __init__(self, frame: Frame, draft: Draft) -> None:
        self._frame = frame
        self._peak = peak_of(frame, draft)
        haulers = hauler_of(frame)
        self._load: dict[tuple[int, str, bool, bool], int] = defaultdict(int)
        for (cargo, trip, carrier_id), units in draft.carried.items():
            person_id = haulers.get(carrier_id, carrier_id)
            for of_mass in (True, False):
                self._load[trip, person_id, carrier_id in haulers, of_mass] += units * frame.weight(
                    cargo, trip, of_mass=of_mass
                )

    def reason(self, cargo: int, trip: int, person_id: str, units: int) -> ElsewhereReason:
        """Why somebody does not have so many units of a thing on a trip."""
        if person_id not in self._frame.world.timeline.trips[trip].person_ids:
            return ElsewhereReason.NOT_ON_TRIP
        sleds = [one.is_sled for one in self._frame.carriers[trip] if one.person_id == person_id]
        light = [
            on_sled
            for on_sled in sleds
            if self._fits(cargo, trip, person_id, units, on_sled=on_sled, of_mass=True)
        ]
        if not light:
            return ElsewhereReason.LOAD
        if any(
            self._fits(cargo, trip, person_id, units, on_sled=on_sled, of_mass=False)
            for on_sled in light
        ):
            return ElsewhereReason.OTHER
        return ElsewhereReason.VOLUME

    def _fits(
        self, cargo: int, trip: int, person_id: str, units: int, *, on_sled: bool, of_mass: bool
    ) -> bool:
        """Whether units fit into a pack or sled by mass, up to the peak, or by volume."""
        more = units * self._frame.weight(cargo, trip, of_mass=of_mass)
        for row in self._frame.load_rows[trip]:
            counts = row.in_sled if on_sled else row.in_pack
            if row.person_id != person_id or row.of_mass != of_mass or not counts:
                continue
            load = row.fixed + more
            for in_sled, is_in in ((False, row.in_pack), (True, row.in_sled)):
                load += self._load[trip, person_id, in_sled, of_mass] if is_in else 0
            if of_mass and row.in_fraction:
                if fraction_up(load_g=load, cap_g=max(row.cap, 1)) > self._peak:
                    return False
            elif not of_mass and load > row.cap:
                return False
        return True
