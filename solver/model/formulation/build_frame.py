"""From a problem to the frame: the rows of all rules, sorted by what they concern."""

from __future__ import annotations

from collections import defaultdict

from solver.model.formulation.allowed_trips import AllowedTrips, find_allowed_trips
from solver.model.formulation.frame import Carrier, Frame
from solver.model.formulation.still_open import still_open
from solver.model.instance.world import World, build_world
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
    SpreadRow,
    StockRow,
)
from solver.model.rules import build_rows
from solver.problem import Problem, Timeline


def build_frame(problem: Problem, timeline: Timeline | None = None) -> Frame:
    """Build the rows of all rules and sort them; who has read the timeline hands it on."""
    world = build_world(problem, timeline)
    return sort_rows(world, rows_of(world))


def rows_of(world: World) -> list[Row]:
    """The rows of all rules about what can still be chosen."""
    return still_open(world, build_rows(world))


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
    allowed = find_allowed_trips(world, rows)
    may_carry, trips_of = _who_may_carry(allowed, carriers, own)
    cargo_on: list[list[int]] = [[] for _ in trips]
    for cargo, its_trips in enumerate(trips_of):
        for trip in its_trips:
            cargo_on[trip].append(cargo)
    return Frame(
        world=world,
        stock_rows=tuple(row for row in rows if isinstance(row, StockRow)),
        kept_at=_by_place(world, rows),
        reach_rows=tuple(row for row in rows if isinstance(row, ReachRow)),
        some_ride_rows=tuple(row for row in rows if isinstance(row, SomeRideRow)),
        conserved=frozenset(row.cargo for row in rows if isinstance(row, ConserveRow)),
        allowed_trips=trips_of,
        allowed_cargo=tuple(tuple(cargoes) for cargoes in cargo_on),
        settled=allowed.settled,
        required_rides=frozenset((r.cargo, r.trip) for r in rows if isinstance(r, RideRow)),
        carriers=tuple(tuple(c) for c in carriers),
        may_carry=may_carry,
        load_rows=tuple(tuple(r) for r in load_rows),
        spread_rows=tuple(tuple(r) for r in spread_rows),
        pin_rows=tuple(row for row in rows if isinstance(row, PinRow)),
        pinned_units=_pinned(rows),
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


def _pinned(rows: list[Row]) -> dict[tuple[int, int], dict[str, int]]:
    """Units that are pinned to carriers, by cargo and trip."""
    found: dict[tuple[int, int], dict[str, int]] = defaultdict(dict)
    for row in rows:
        if isinstance(row, PinRow) and row.cargo is not None:
            found[row.cargo, row.trip][row.carrier_id] = row.at_least
    return dict(found)


def _who_may_carry(
    allowed: AllowedTrips, carriers: list[list[Carrier]], own: dict[int, list[OwnRow]]
) -> tuple[dict[tuple[int, int], tuple[Carrier, ...]], tuple[tuple[int, ...], ...]]:
    """Carriers of each open (cargo, trip), and the trips left open once each needs one."""
    may_carry: dict[tuple[int, int], tuple[Carrier, ...]] = {}
    everybody = [tuple(its_carriers) for its_carriers in carriers]
    trips_of = []
    for cargo, its_trips in enumerate(allowed.trips):
        limits = own.get(cargo, [])
        kept = []
        for trip in its_trips:
            able = everybody[trip]
            here = [row for row in limits if row.trips is None or trip in row.trips]
            if here:
                able = _able(able, here, trip)
            if able or (cargo, trip) in allowed.settled:
                may_carry[cargo, trip] = able
                kept.append(trip)
        trips_of.append(tuple(kept))
    return may_carry, tuple(trips_of)


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
