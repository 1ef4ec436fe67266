"""How findings name masses, volumes, trips, carriers and runs of nights."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from solver.checker.ledger.loads import Carrier
from solver.checker.queries.words import counted
from solver.problem import Trip

Where = tuple[tuple[str, str | int], ...]


def kg(mass_g: int) -> str:
    """A mass in kilograms with all its grams."""
    return f"{mass_g / 1000:.3f} kg"


def litres(volume_ml: int) -> str:
    """A volume in litres with all its millilitres."""
    return f"{volume_ml / 1000:.3f} L"


def litres_needed(volume_ml: int) -> str:
    """A volume that must fit, in litres with one decimal, rounded up."""
    return f"{-(-volume_ml // 100) / 10:.1f} L"


def litres_of_room(volume_ml: int) -> str:
    """A volume that there is room for, in litres with one decimal, rounded down."""
    return f"{volume_ml // 100 / 10:.1f} L"


def trip_words(trip: Trip) -> str:
    """A trip as people speak of it."""
    return f"day {trip.day}, {trip.from_place} to {trip.to_place}"


def trips_words(trips: Sequence[Trip], most: int = 3) -> str:
    """The first few trips by name and how many more there are."""
    first = "; ".join(trip_words(trip) for trip in trips[:most])
    more = len(trips) - most
    return f"{first}; and {counted(more, 'more trip')}" if more > 0 else first


def trip_where(trip: Trip) -> Where:
    """A trip as (name, value) pairs."""
    return (
        ("day", trip.day),
        ("step", trip.step),
        ("from_place", trip.from_place),
        ("to_place", trip.to_place),
    )


def carrier_where(carrier: Carrier) -> Where:
    """A pack or sled as (name, value) pairs."""
    person: Where = (("person", carrier.person_id),)
    return person if carrier.sled_id is None else (*person, ("sled", carrier.sled_id))


@dataclass(frozen=True, slots=True)
class Run:
    """Nights in a row on which the same amount is missing."""

    first_day: int
    last_day: int
    amount: int

    @property
    def words(self) -> str:
        """The nights in words."""
        if self.first_day == self.last_day:
            return f"night of day {self.first_day}"
        return f"nights of days {self.first_day} to {self.last_day}"

    @property
    def where(self) -> Where:
        """The nights as (name, value) pairs; `last_day` only where there are several."""
        if self.first_day == self.last_day:
            return (("day", self.first_day),)
        return (("day", self.first_day), ("last_day", self.last_day))


def runs(missing: Iterable[tuple[int, int]]) -> list[Run]:
    """Join (day, amount) pairs in order of days into runs; amounts of 0 are left out."""
    joined: list[Run] = []
    for day, amount in missing:
        if amount <= 0:
            continue
        if joined and joined[-1].last_day == day - 1 and joined[-1].amount == amount:
            joined[-1] = Run(joined[-1].first_day, day, amount)
        else:
            joined.append(Run(day, day, amount))
    return joined


def nights_words(nights: list[tuple[int, str]]) -> str:
    """Nights by place as people speak of them: `at c1 on days 3 to 5 and 8`."""
    places: dict[str, list[int]] = {}
    for day, place_id in nights:
        places.setdefault(place_id, []).append(day)
    words = []
    for place_id, days in places.items():
        spans: list[list[int]] = []
        for day in sorted(set(days)):
            if spans and spans[-1][-1] == day - 1:
                spans[-1].append(day)
            else:
                spans.append([day])
        day_words = [str(s[0]) if len(s) == 1 else f"{s[0]} to {s[-1]}" for s in spans]
        word = "night of day" if len(set(days)) == 1 else "nights of days"
        words.append(f"at {place_id} on the {word} {', '.join(day_words)}")
    return "; ".join(words)
