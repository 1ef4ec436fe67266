"""The integer model of one direction's flights: who is on which, and how much of what."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from solver.model.cp_sat import cp_model
from solver.model.flights.freight import Freight, Piece, wearers
from solver.problem import Item, Purpose
from solver.quantities import FRACTION_GRID, share_down

Terms = list[tuple[cp_model.IntVar, int]]
"""Variables, each with how much one of it is worth."""


@dataclass(slots=True)
class Cabin:
    """Variables by (person or unit, flight's number).

    `used[f]` is whether anybody is on flight f; `fraction` the largest share of a payload, on
    the way out of the lowered one [1/10,000].
    """

    freight: Freight
    model: cp_model.CpModel
    on: dict[tuple[str, int], cp_model.IntVar]
    units: dict[tuple[str, int], cp_model.IntVar]
    used: list[cp_model.IntVar]
    fraction: cp_model.IntVar

    @property
    def numbers(self) -> range:
        """The flights' numbers, from 0."""
        return range(len(self.freight.flights))

    def mass(self, flight: int) -> Terms:
        """People and cargo on a flight [g]."""
        people = [(self.on[p, flight], mass_g) for p, mass_g in self.freight.mass_g.items()]
        return people + [(self.units[p.unit_id, flight], p.mass_g) for p in self.freight.pieces]

    def there_after(self, flight: int) -> range:
        """Flights of which people and cargo are at the start place once a flight has gone."""
        if self.freight.is_inbound:
            return range(flight + 1)
        return range(flight + 1, len(self.freight.flights))

    def people_after(self, flight: int, cook_group_id: str | None = None) -> Terms:
        """Who is at the start place then: everybody, or those of one cook group."""
        return [
            (self.on[person.person_id, number], 1)
            for person in self.freight.people
            if cook_group_id in (None, person.cook_group_id)
            for number in self.there_after(flight)
        ]

    def pieces_after(self, flight: int, worth: dict[str, int]) -> Terms:
        """Units that are there then, of those that are worth anything."""
        return [
            (self.units[unit_id, number], amount)
            for unit_id, amount in worth.items()
            if amount
            for number in self.there_after(flight)
        ]

    def things_after(self, flight: int, purpose: Purpose) -> Terms:
        """Things for a purpose that stand there then or are worn by somebody there.

        A shelter is worth the places that it gives, all else one.
        """

        def worth(item: Item) -> int:
            return item.shelter_places if purpose is Purpose.SHELTER else 1

        pieces = [p for p in self.freight.pieces if p.item and p.item.purpose is purpose]
        terms = self.pieces_after(flight, {p.unit_id: worth(p.item) for p in pieces if p.item})
        for item in self.freight.problem.gear:
            people = wearers(self.freight, item)
            on = [self.on[p, n] for p in people for n in self.there_after(flight)]
            if item.purpose is purpose and on:
                worn = self.model.new_bool_var(f"worn {item.unit_id} {flight}")
                self.model.add_max_equality(worn, on)
                terms.append((worn, worth(item) * item.count))
        return terms

    def aboard(self, flight: int, items: Iterable[Item], *, places: bool) -> Terms:
        """Items on a flight itself or worn by somebody on it, each worth its places or one."""
        terms: Terms = []
        for item in items:
            worth = item.shelter_places if places else 1
            if (item.unit_id, flight) in self.units:
                terms.append((self.units[item.unit_id, flight], worth))
            elif on := [self.on[person, flight] for person in wearers(self.freight, item)]:
                worn = self.model.new_bool_var("")
                self.model.add_max_equality(worn, on)
                terms.append((worn, worth * item.count))
        return terms


def build_cabin(freight: Freight) -> Cabin:
    """The variables of one direction's flights, and what they mean, without any rule."""
    model = cp_model.CpModel()
    numbers = range(len(freight.flights))
    percent = 100
    if not freight.is_inbound and freight.problem.asks("outbound_payload_lowered"):
        percent = freight.problem.rules.whole("outbound_payload_percent")
    lowered_g = [
        max(1, share_down(amount=flight.payload_g, percent=percent)) for flight in freight.flights
    ]
    most = FRACTION_GRID * max(1, freight.total_g) // min(lowered_g) + 1
    cabin = Cabin(
        freight=freight,
        model=model,
        on={
            (p.person_id, f): model.new_bool_var(f"{p.person_id} on {f}")
            for p in freight.people
            for f in numbers
        },
        units={
            (piece.unit_id, f): model.new_int_var(0, piece.count, f"{piece.unit_id} on {f}")
            for piece in freight.pieces
            for f in numbers
        },
        used=[model.new_bool_var(f"used {f}") for f in numbers],
        fraction=model.new_int_var(0, most, "fraction"),
    )
    for f in numbers:
        model.add_max_equality(cabin.used[f], [cabin.on[p.person_id, f] for p in freight.people])
        model.add(FRACTION_GRID * total(cabin.mass(f)) <= lowered_g[f] * cabin.fraction)
    return cabin


def total(terms: Terms) -> cp_model.LinearExpr:
    """The worth of all terms together."""
    return cp_model.LinearExpr.weighted_sum([v for v, _ in terms], [w for _, w in terms])


def stock_worth(pieces: tuple[Piece, ...], cook_group_id: str, *, fuel: bool) -> dict[str, int]:
    """What one unit of a cook group's stock is worth, in fuel [mL] or else in night sets."""
    return {
        piece.unit_id: piece.fuel_ml if fuel else piece.sets
        for piece in pieces
        if piece.cook_group_id == cook_group_id
    }
