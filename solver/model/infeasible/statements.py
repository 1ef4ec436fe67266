"""What the request and its rules say, as statements that a leader can name: groups of rows.

A statement is what may be let go as a whole: the caps of some people on one trip, what must be at
one place, what must ride. What is eaten and burnt each night follows from the calendar and is no
statement: it is held fixed.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass

from solver.diagnosis import Names
from solver.model.instance.world import World
from solver.model.rows import (
    ApartRow,
    CarrierRow,
    ConserveRow,
    CountRow,
    LoadRow,
    LossRow,
    OwnRow,
    PinRow,
    ReachRow,
    RideRow,
    Row,
    SomeRideRow,
    StockRow,
)

STRUCTURE = (CarrierRow, ConserveRow, OwnRow)
"""Rows that say what the world is like; nothing could be said without them."""


@dataclass(frozen=True, slots=True)
class Statement:
    """One statement: its rule, what it is about as (name, value) pairs, and its rows.

    `person_ids` are those whose caps it is about, `cargoes` the classes of units that the others
    are about.
    """

    rule_id: str
    about: Names
    rows: tuple[Row, ...]
    person_ids: tuple[str, ...] = ()
    cargoes: tuple[int, ...] = ()

    @property
    def is_of_caps(self) -> bool:
        """Whether it limits loads."""
        return isinstance(self.rows[0], LoadRow)


def statements_of(world: World, rows: Iterable[Row]) -> tuple[Statement, ...]:
    """Rows in their statements; those of the structure are left out."""
    grouped: dict[tuple[str, Names], list[Row]] = defaultdict(list)
    for row in rows:
        if not isinstance(row, STRUCTURE):
            grouped[row.rule_id, _about(world, row)].append(row)
    return tuple(
        Statement(rule_id, about, tuple(its), _people(its), _things(its))
        for (rule_id, about), its in grouped.items()
    )


def _people(rows: list[Row]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(row.person_id for row in rows if isinstance(row, LoadRow)))


def _things(rows: list[Row]) -> tuple[int, ...]:
    found: list[int] = []
    for row in rows:
        found += cargoes_of(row)
    return tuple(dict.fromkeys(found))


def cargoes_of(row: Row) -> tuple[int, ...]:
    """The cargoes that a row on things is about; none for caps."""
    match row:
        case RideRow():
            return (row.cargo,)
        case PinRow():
            return () if row.cargo is None else (row.cargo,)
        case ApartRow():
            return row.cargoes
        case StockRow() | ReachRow() | SomeRideRow() | CountRow() | LossRow():
            return tuple(cargo for cargo, _ in row.terms)
    return ()


def _about(world: World, row: Row) -> Names:
    match row:
        case LoadRow():
            return trip_names(world, row.trip)
        case StockRow():
            return (("place", row.place_id),)
        case ReachRow():
            return (("place", row.place_ids[0]),)
        case PinRow():
            return (*trip_names(world, row.trip), ("pin", row.pin + 1))
    return ()


def trip_names(world: World, trip: int) -> Names:
    """How a trip is named."""
    its = world.timeline.trips[trip]
    return (
        ("day", its.day),
        ("step", its.step),
        ("from_place", its.from_place),
        ("to_place", its.to_place),
    )
