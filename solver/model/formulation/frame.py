"""All rows of a problem sorted by what they concern, ready for any way of searching."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass, field

from solver.model.formulation.allowed_trips import Openings, open_trips
from solver.model.instance.world import World, build_world
from solver.model.rows import (
    ApartRow,
    CarrierRow,
    ConserveRow,
    CountRow,
    LoadRow,
    LossRow,
    OwnRow,
    ReachRow,
    RideRow,
    Row,
    SomeRideRow,
    SpreadRow,
    StockRow,
)
from solver.model.rules import build_rows
from solver.problem import Problem


@dataclass(frozen=True, slots=True)
class Carrier:
    """One pack or sled on one trip."""

    carrier_id: str
    person_id: str
    is_sled: bool


@dataclass(frozen=True, slots=True)
class Frame:
    """The rows of a world by cargo and by trip.

    `opened[i]` are the trips open to cargo i, `riders[t]` the cargoes open to trip t. `kept_at`
    are the rows that keep counted stock at a place. `rides` are the (cargo, trip) pairs that
    a rule forces, `settled` those and the ones without a choice. `may_carry[i, t]` are the
    carriers on trip t that may take units of cargo i. `known` keeps what was worked out of the
    rows once.
    """

    world: World
    stock_rows: tuple[StockRow, ...]
    kept_at: dict[str, tuple[StockRow, ...]]
    reach_rows: tuple[ReachRow, ...]
    some_ride_rows: tuple[SomeRideRow, ...]
    conserved: frozenset[int]
    opened: tuple[tuple[int, ...], ...]
    riders: tuple[tuple[int, ...], ...]
    rides: frozenset[tuple[int, int]]
    settled: frozenset[tuple[int, int]]
    carriers: tuple[tuple[Carrier, ...], ...]
    may_carry: dict[tuple[int, int], tuple[Carrier, ...]]
    load_rows: tuple[tuple[LoadRow, ...], ...]
    spread_rows: tuple[tuple[SpreadRow, ...], ...]
    known: dict[str, object] = field(default_factory=dict, compare=False, repr=False)

    def weight(self, cargo: int, trip: int, *, of_mass: bool) -> int:
        """What one unit adds to a load on a trip [g or mL]: nothing while it is in use."""
        thing = self.world.cargo[cargo]
        if (
            thing.item is not None
            and (cargo, trip) in self.rides
            and self.world.timeline.trips[trip].leg.mode in thing.item.in_use_on
        ):
            return 0
        return thing.mass_g if of_mass else thing.volume_ml


def build_frame(problem: Problem) -> Frame:
    """Build the rows of all rules and sort them."""
    world = build_world(problem)
    return sort_rows(world, build_rows(world))


def sort_rows(world: World, rows: list[Row]) -> Frame:
    """The frame of a world under some rows."""
    trips = world.timeline.trips
    carriers: list[list[Carrier]] = [[] for _ in trips]
    load_rows: list[list[LoadRow]] = [[] for _ in trips]
    spread_rows: list[list[SpreadRow]] = [[] for _ in trips]
    own: dict[int, list[OwnRow]] = defaultdict(list)
    for row in rows:
        match row:
            case CarrierRow():
                carriers[row.trip].append(Carrier(row.carrier_id, row.person_id, row.is_sled))
            case LoadRow():
                load_rows[row.trip].append(row)
            case ApartRow() | CountRow() | LossRow():
                spread_rows[row.trip].append(row)
            case OwnRow():
                own[row.cargo].append(row)
    openings = open_trips(world, rows)
    may_carry, opened = _who_may_carry(openings, carriers, own)
    riders: list[list[int]] = [[] for _ in trips]
    for cargo, its_trips in enumerate(opened):
        for trip in its_trips:
            riders[trip].append(cargo)
    return Frame(
        world=world,
        stock_rows=tuple(row for row in rows if isinstance(row, StockRow)),
        kept_at=_by_place(world, rows),
        reach_rows=tuple(row for row in rows if isinstance(row, ReachRow)),
        some_ride_rows=tuple(row for row in rows if isinstance(row, SomeRideRow)),
        conserved=frozenset(row.cargo for row in rows if isinstance(row, ConserveRow)),
        opened=opened,
        riders=tuple(tuple(cargoes) for cargoes in riders),
        settled=openings.settled,
        rides=frozenset((r.cargo, r.trip) for r in rows if isinstance(r, RideRow)),
        carriers=tuple(tuple(c) for c in carriers),
        may_carry=may_carry,
        load_rows=tuple(tuple(r) for r in load_rows),
        spread_rows=tuple(tuple(r) for r in spread_rows),
    )


def _by_place(world: World, rows: list[Row]) -> dict[str, tuple[StockRow, ...]]:
    """The rows that keep counted stock, by place."""
    found: dict[str, list[StockRow]] = defaultdict(list)
    for row in rows:
        if isinstance(row, StockRow) and row.at_least > 0 and row.terms:
            if not world.cargo[row.terms[0][0]].is_stock:
                continue
            found[row.place_id].append(row)
    return {place: tuple(its_rows) for place, its_rows in found.items()}


def _who_may_carry(
    openings: Openings, carriers: list[list[Carrier]], own: dict[int, list[OwnRow]]
) -> tuple[dict[tuple[int, int], tuple[Carrier, ...]], tuple[tuple[int, ...], ...]]:
    """Carriers of each open (cargo, trip), and the trips left open once each needs one."""
    may_carry: dict[tuple[int, int], tuple[Carrier, ...]] = {}
    everybody = [tuple(its_carriers) for its_carriers in carriers]
    opened = []
    for cargo, its_trips in enumerate(openings.opened):
        limits = own.get(cargo, [])
        kept = []
        for trip in its_trips:
            able = everybody[trip]
            here = [row for row in limits if row.trips is None or trip in row.trips]
            if here:
                able = _able(able, here, trip)
            if able or (cargo, trip) in openings.settled:
                may_carry[cargo, trip] = able
                kept.append(trip)
        opened.append(tuple(kept))
    return may_carry, tuple(opened)


def _able(carriers: tuple[Carrier, ...], limits: list[OwnRow], trip: int) -> tuple[Carrier, ...]:
    """The carriers that every row on a cargo lets have it on a trip."""
    return tuple(
        carrier
        for carrier in carriers
        if all(
            carrier.person_id in row.person_ids and not (carrier.is_sled and trip in row.pack_trips)
            for row in limits
        )
    )
