"""Places where things may stand while nobody is there, as the calendar has them."""

from __future__ import annotations

from dataclasses import dataclass

from solver.checker.ledger.facts import Facts
from solver.problem import CacheSite, Place, PlaceKind, Purpose, ReserveKind

Nights = frozenset[int]

MARKS = frozenset({Purpose.MARKER_POLE, Purpose.WAND})
"""Purposes of what stands in the snow to show where something lies."""


@dataclass(frozen=True, slots=True)
class LeftAlone:
    """A place that people leave and come back to; nobody sleeps there on `nights`.

    `meant` are those of the nights on which the calendar or a reserve means things to stand
    there: at a cache site once people came to it from below and until they next come by, at a
    camp while a reserve for the descent is planned in it.
    """

    place: Place
    nights: Nights
    meant: Nights

    @property
    def cache(self) -> CacheSite:
        """What is given of the cache, empty where nothing is."""
        return self.place.cache or CacheSite()


def read_left_alone(facts: Facts) -> tuple[LeftAlone, ...]:
    """Cache sites that people pass and camps that they come back to, in the route's order."""
    found: list[LeftAlone] = []
    for place in facts.problem.route.places:
        if place.place_id == facts.problem.start_place:
            continue
        if place.kind not in {PlaceKind.CACHE_SITE, PlaceKind.CAMP}:
            continue
        days = _days_at(facts, place.place_id)
        empty = frozenset(
            night.day
            for night in facts.timeline.nights
            if days and days[0] <= night.day < days[-1] and not night.sleepers_at(place.place_id)
        )
        if empty or (days and place.kind is PlaceKind.CACHE_SITE):
            found.append(LeftAlone(place, empty, _meant(facts, place, days, empty)))
    return tuple(found)


def _days_at(facts: Facts, place_id: str) -> list[int]:
    """The days on which anybody is at a place."""
    return [
        number
        for number, day in enumerate(facts.problem.calendar.days, start=1)
        if any(place_id in visit.places for visit in day.visits)
    ]


def _meant(facts: Facts, place: Place, days: list[int], empty: Nights) -> Nights:
    if place.kind is PlaceKind.CAMP:
        planned = any(
            reserve.place_id == place.place_id and reserve.kind is ReserveKind.DESCENT
            for reserve in facts.problem.reserves
        )
        slept = [n.day for n in facts.timeline.nights if n.sleepers_at(place.place_id)]
        return frozenset(day for day in empty if planned and slept and day > slept[0])
    home = facts.problem.route.homeward().get(place.place_id)
    from_below = {
        trip.day
        for trip in facts.timeline.trips
        if trip.to_place == place.place_id and trip.from_place == home
    }
    return frozenset(n for n in empty if max(day for day in days if day <= n) in from_below)
