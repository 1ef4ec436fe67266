"""What rules say, as linear rows that every search method reads alike.

Rules never see a solver: a rule's builder returns rows, and the one-piece model, the
relaxation, the packing of single trips and the greedy plan all take the same rows.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class StockRow:
    """At a place in a state, Σ weight × units standing there ≥ `at_least`.

    `terms` are (cargo index, weight).
    """

    rule_id: str
    state: int
    place_id: str
    terms: tuple[tuple[int, int], ...]
    at_least: int


@dataclass(frozen=True, slots=True)
class ReachRow:
    """In a state, Σ weight × units standing at any of some places ≥ `at_least`.

    Unlike a StockRow it does not say which unit must be where: any that is within reach will
    do. `terms` are (cargo index, weight).
    """

    rule_id: str
    state: int
    place_ids: tuple[str, ...]
    terms: tuple[tuple[int, int], ...]
    at_least: int


@dataclass(frozen=True, slots=True)
class SomeRideRow:
    """On a trip, Σ weight × units that ride ≥ `at_least`, whichever they are."""

    rule_id: str
    trip: int
    terms: tuple[tuple[int, int], ...]
    at_least: int


@dataclass(frozen=True, slots=True)
class ConserveRow:
    """A cargo leaves places only where it stands, and is used only there."""

    rule_id: str
    cargo: int


@dataclass(frozen=True, slots=True)
class RideRow:
    """All units of a cargo ride on a trip."""

    rule_id: str
    cargo: int
    trip: int


@dataclass(frozen=True, slots=True)
class CarrierRow:
    """A pack or sled (`carrier_id`) of a person may take loads on a trip."""

    rule_id: str
    trip: int
    person_id: str
    carrier_id: str
    is_sled: bool


def sled_carrier(sled_id: str) -> str:
    """The carrier id of a sled; no person's id can be the same, since ids have no slash."""
    return f"sled/{sled_id}"


@dataclass(frozen=True, slots=True)
class OwnRow:
    """Units of a cargo ride with some people only, most often one; in a pack on `pack_trips`.

    It holds on `trips` only, on every trip where that is None.
    """

    rule_id: str
    cargo: int
    person_ids: tuple[str, ...]
    pack_trips: frozenset[int] = frozenset()
    trips: frozenset[int] | None = None


@dataclass(frozen=True, slots=True)
class LoadRow:
    """On a trip, what a person has in pack and/or sled, with `fixed`, is at most `cap` [g, mL].

    `of_mass` tells mass from volume; a row with `in_fraction` counts in the load fraction.
    """

    rule_id: str
    trip: int
    person_id: str
    of_mass: bool
    in_pack: bool
    in_sled: bool
    fixed: int
    cap: int
    in_fraction: bool


@dataclass(frozen=True, slots=True)
class ApartRow:
    """Of the k units of some cargoes on a trip, not all ride in one carrier.

    With `half`, twice the units in one carrier are at most k + 1; without, they are at most
    k − 1 as soon as k is 2 or more.
    """

    rule_id: str
    trip: int
    cargoes: tuple[int, ...]
    half: bool


@dataclass(frozen=True, slots=True)
class CountRow:
    """On a trip, Σ weight × units in any one carrier ≤ `at_most`."""

    rule_id: str
    trip: int
    terms: tuple[tuple[int, int], ...]
    at_most: int


@dataclass(frozen=True, slots=True)
class LossRow:
    """Without any one carrier of a trip, enough is left within reach once it has arrived.

    For each carrier: Σ weight × units standing at any of some places after the trip, less
    those that the carrier took, ≥ `at_least`. Both ends of the trip are among the places.
    """

    rule_id: str
    trip: int
    place_ids: tuple[str, ...]
    terms: tuple[tuple[int, int], ...]
    at_least: int


@dataclass(frozen=True, slots=True)
class PinRow:
    """On a trip, units of a cargo in one carrier ≥ `at_least`; nothing keeps it without a cargo.

    `pin` is the index of the request's pin that says so.
    """

    rule_id: str
    pin: int
    trip: int
    cargo: int | None
    carrier_id: str
    at_least: int


SpreadRow = ApartRow | CountRow | LossRow
"""Rows on how units are shared out among the carriers of one trip."""


def spread_weights(row: SpreadRow) -> dict[int, int]:
    """What one unit of each cargo counts in a spread row."""
    if isinstance(row, ApartRow):
        return dict.fromkeys(row.cargoes, 1)
    return dict(row.terms)


Row = (
    StockRow
    | ReachRow
    | SomeRideRow
    | ConserveRow
    | RideRow
    | CarrierRow
    | OwnRow
    | LoadRow
    | ApartRow
    | CountRow
    | LossRow
    | PinRow
)
