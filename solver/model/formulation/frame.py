"""The frame: all rows of a problem by cargo and by trip, ready for any way of searching."""

from __future__ import annotations

from dataclasses import dataclass, field

from solver.model.formulation.flow_row import FlowRowCache
from solver.model.formulation.former import Former
from solver.model.instance.world import World
from solver.model.rows import (
    LoadRow,
    PinRow,
    ReachRow,
    SomeRideRow,
    SpreadRow,
    StockRow,
)


@dataclass(frozen=True, slots=True)
class Carrier:
    """One pack or sled on one trip."""

    carrier_id: str
    person_id: str
    is_sled: bool


@dataclass(frozen=True, slots=True)
class Frame:
    """The rows of a world by cargo and by trip.

    `allowed_trips[i]` are the trips that cargo i may ride, `allowed_cargo[t]` the cargoes that may
    ride trip t. `kept_at` are the rows that keep counted stock at a place. `required_rides` are
    the (cargo, trip) pairs that a rule requires, `settled` those and the ones without a choice.
    `may_carry[i, t]` are the carriers on trip t that may take units of cargo i. `pin_rows` put
    units into one carrier: `pinned_units[i, t]` of cargo i, by carrier, on trip t. `cache` keeps
    the rows on rides once they are worked out. `former` is a former plan to stay close to, where
    one is given.
    """

    world: World
    stock_rows: tuple[StockRow, ...]
    kept_at: dict[str, tuple[StockRow, ...]]
    reach_rows: tuple[ReachRow, ...]
    some_ride_rows: tuple[SomeRideRow, ...]
    conserved: frozenset[int]
    allowed_trips: tuple[tuple[int, ...], ...]
    allowed_cargo: tuple[tuple[int, ...], ...]
    required_rides: frozenset[tuple[int, int]]
    settled: frozenset[tuple[int, int]]
    carriers: tuple[tuple[Carrier, ...], ...]
    may_carry: dict[tuple[int, int], tuple[Carrier, ...]]
    load_rows: tuple[tuple[LoadRow, ...], ...]
    spread_rows: tuple[tuple[SpreadRow, ...], ...]
    pin_rows: tuple[PinRow, ...] = ()
    pinned_units: dict[tuple[int, int], dict[str, int]] = field(default_factory=dict)
    former: Former | None = field(default=None, compare=False, repr=False)
    cache: FlowRowCache = field(default_factory=FlowRowCache, compare=False, repr=False)

    def pinned(self, cargo: int, trip: int) -> dict[str, int]:
        """Units of a cargo that must be in a carrier of a trip, by the carrier's id."""
        return self.pinned_units.get((cargo, trip), {})

    def weight(self, cargo: int, trip: int, *, of_mass: bool) -> int:
        """What one unit adds to a load on a trip [g or mL]: nothing while it is in use."""
        thing = self.world.cargo[cargo]
        if (
            thing.item is not None
            and (cargo, trip) in self.required_rides
            and self.world.timeline.trips[trip].leg.mode in thing.item.in_use_on
        ):
            return 0
        return thing.mass_g if of_mass else thing.volume_ml
