"""What the trip needs of each item: the trips that it must ride and the places to be at."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from solver.checker.ledger.times import Time, after_night, departure, end_of
from solver.problem import Item, NeedKind, Night, Problem, Timeline, Trip


@dataclass(frozen=True, slots=True)
class Window:
    """When an item must stand at its place without a gap: from `begins` until `ends`."""

    begins: Time
    ends: Time


class Needs:
    """Answers, for one problem, where each item must be and what it must ride."""

    def __init__(self, problem: Problem, timeline: Timeline) -> None:
        self._timeline = timeline
        self._home = {p.place_id: problem.route.way_home(p.place_id) for p in problem.route.places}
        self._everybody = frozenset(p.person_id for p in problem.roster)
        self._teams: dict[str, frozenset[str]] = {}
        self._windows: dict[str, Window | None] = {}
        for person in problem.roster:
            team = self._teams.get(person.rope_team_id, frozenset())
            self._teams[person.rope_team_id] = team | {person.person_id}
        self._carriers = {
            person.person_id: self._teams[person.rope_team_id]
            if person.kit_to_rope_team
            else frozenset({person.person_id})
            for person in problem.roster
        }

    def people_of(self, item: Item) -> frozenset[str]:
        """Whose item it is: its owner, else its rope team, else everybody."""
        if item.owner_id is not None:
            return frozenset({item.owner_id})
        if item.rope_team_id is not None:
            return self._teams.get(item.rope_team_id, frozenset())
        return self._everybody

    def carriers_of(self, item: Item) -> frozenset[str]:
        """Who may carry a personal item: its owner, or the rope team that the owner's kit goes to.

        What keeps the owner alive stays with the owner all the same.
        """
        return self._carriers[item.owner_id or ""]

    def must_ride(self, item: Item, trip: Trip) -> bool:
        """Whether an item that its people need on the move must go with them on a trip."""
        return (
            item.need.kind is NeedKind.EVERY_TRIP
            and not self.people_of(item).isdisjoint(trip.person_ids)
            and self._near_enough(item, trip.from_place)
            and self._near_enough(item, trip.to_place)
            and self._begun(item, trip)
        )

    def too_far(self, item: Item, place: str) -> bool:
        """Whether a place is beyond the furthest that an item goes."""
        return not self._near_enough(item, place)

    def night_place(self, item: Item, night: Night) -> str | None:
        """Where an item of every night or trip must be on a night; None when that is free."""
        people = self.people_of(item)
        wanted = {self._wanted_at(item, place) for p, place in night.sleeps_at if p in people}
        return wanted.pop() if len(wanted) == 1 else None

    def window(self, item: Item) -> Window | None:
        """When an item that belongs at a place must be there; None if nobody ever gets there."""
        if item.unit_id not in self._windows:
            self._windows[item.unit_id] = self._window(item)
        return self._windows[item.unit_id]

    def _window(self, item: Item) -> Window | None:
        mark = item.need.up_to
        people = self.people_of(item)
        if mark is None:
            return None
        there = [
            night
            for night in self._timeline.nights
            if any(p in people and mark in self._home[place] for p, place in night.sleeps_at)
        ]
        stay = [n for k, n in enumerate(there) if n.day == there[0].day + k]
        due = stay[-1:] if item.need.may_follow else stay[:1]
        begins = [after_night(night) for night in due]
        ends = end_of(self._timeline)
        for trip in self._timeline.trips:
            if people.isdisjoint(trip.person_ids):
                continue
            if self._beyond(trip.to_place, mark):
                begins.append(departure(trip.moment))
            if trip.from_place == mark and mark not in self._home[trip.to_place]:
                ends = departure(trip.moment)
        return Window(min(begins), ends) if begins else None

    def nights_before(self, item: Item, window: Window | None) -> Iterator[tuple[Night, str]]:
        """Nights before its window, and where an item that may not go ahead must be on them.

        Where nobody gets to its place any more, it is bound for nowhere and may be anywhere.
        """
        if item.need.may_go_ahead or window is None:
            return
        for night in self._timeline.nights:
            place = self._common_place(item, night)
            if place is not None and after_night(night) < window.begins:
                yield night, place

    def _wanted_at(self, item: Item, sleeps_at: str) -> str | None:
        need = item.need
        if need.up_to is not None and self._beyond(sleeps_at, need.up_to):
            return need.up_to
        short = need.from_place is not None and need.from_place not in self._home[sleeps_at]
        return None if short and need.may_go_ahead else sleeps_at

    def _common_place(self, item: Item, night: Night) -> str | None:
        people = self.people_of(item)
        places = {place for person, place in night.sleeps_at if person in people}
        return places.pop() if len(places) == 1 else None

    def _beyond(self, place: str, mark: str) -> bool:
        return place != mark and mark in self._home[place]

    def _near_enough(self, item: Item, place: str) -> bool:
        return item.need.up_to is None or not self._beyond(place, item.need.up_to)

    def _begun(self, item: Item, trip: Trip) -> bool:
        """Whether a trip is where an item is needed: on its way there, unless it may go ahead."""
        mark = item.need.from_place
        if mark is None:
            return True
        reached = [mark in self._home[place] for place in (trip.from_place, trip.to_place)]
        return all(reached) if item.need.may_go_ahead else any(reached)
