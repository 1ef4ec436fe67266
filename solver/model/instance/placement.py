"""Reading an item's need against the calendar: where its people are, and what that asks."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from solver.model.instance.world import World
from solver.problem import Direction, Item, NeedKind, Trip


@dataclass(frozen=True, slots=True)
class ItemNeed:
    """One item with those for whom it is needed: its owner, its rope team, or everybody."""

    world: World
    item: Item
    people: frozenset[str]

    def trips(self) -> Iterator[Trip]:
        """The trips that its people make."""
        return (
            trip
            for trip in self.world.timeline.trips
            if not self.people.isdisjoint(trip.person_ids)
        )

    def trips_to_ride(self) -> tuple[Trip, ...]:
        """The trips that an item needed on every trip must ride."""
        if self.item.need.kind is not NeedKind.EVERY_TRIP:
            return ()
        # What may not go ahead is also needed on the way to where its need begins.
        enough = all if self.item.need.may_go_ahead else any
        return tuple(
            trip
            for trip in self.trips()
            if enough(not self._is_short(end) for end in (trip.from_place, trip.to_place))
            and not self._is_past(trip.from_place)
            and not self._is_past(trip.to_place)
        )

    def place_for_night(self, day: int) -> str | None:
        """Where an item needed by night must be on a night; None when it may be anywhere."""
        place_id = self.world.sleeps[day, min(self.people)]
        if self._is_past(place_id):
            return self.item.need.up_to
        if self._is_short(place_id) and self.item.need.may_go_ahead:
            return None
        return place_id

    def span_at_place(self) -> tuple[int, int] | None:
        """First and last state in which an item that belongs at a place must stand there.

        What may follow has time until the last night of its people's first stay.
        None when its people never get there.
        """
        up_to = self.item.need.up_to
        if up_to is None:
            return None
        clock = self.world.clock
        there = [
            night.day
            for night in self.world.timeline.nights
            if any(
                self.world.is_at_or_beyond(self.world.sleeps[night.day, person], up_to)
                for person in self.people
            )
        ]
        starts: list[int] = []
        if there:
            due = _last_of_first_run(there) if self.item.need.may_follow else there[0]
            starts.append(clock.night_event[due] - 1)
        ends = [clock.night_event[day] for day in there]
        for trip in self.trips():
            if trip.from_place == up_to:
                before = clock.trip_event[trip.index] - 1
                (starts if trip.direction is Direction.OUTBOUND else ends).append(before)
        if not starts:
            return None
        return min(starts), max([*starts, *ends])

    def nights_on_the_way(self, span: tuple[int, int]) -> tuple[tuple[int, str], ...]:
        """Nights on which an item bound for its place stays with its people: (state, place)."""
        if self.item.need.may_go_ahead:
            return ()
        one = min(self.people)
        return tuple(
            (event, self.world.sleeps[day, one])
            for day, event in self.world.clock.night_event.items()
            if event <= span[0]
        )

    def _is_short(self, place_id: str) -> bool:
        """Whether a place lies before the part of the route where the need begins."""
        mark = self.item.need.from_place
        return mark is not None and not self.world.is_at_or_beyond(place_id, mark)

    def trips_too_far(self) -> Iterator[Trip]:
        """Trips that end beyond the furthest that the item goes, whoever makes them."""
        return (trip for trip in self.world.timeline.trips if self._is_past(trip.to_place))

    def _is_past(self, place_id: str) -> bool:
        """Whether a place lies beyond the furthest that the item goes."""
        mark = self.item.need.up_to
        return mark is not None and place_id != mark and self.world.is_at_or_beyond(place_id, mark)


def need_of(world: World, item: Item) -> ItemNeed:
    """An item's need with its people."""
    people = frozenset(
        person.person_id
        for person in world.problem.roster
        if (item.owner_id is None or person.person_id == item.owner_id)
        and (item.rope_team_id is None or person.rope_team_id == item.rope_team_id)
    )
    return ItemNeed(world, item, people)


def _last_of_first_run(days: list[int]) -> int:
    """The last day before the first gap in rising days."""
    last = days[0]
    while last + 1 in days:
        last += 1
    return last
