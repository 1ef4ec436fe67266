"""What rules say, as linear rows that every search method reads alike.

Rules never see a solver: a rule's builder returns rows, and the one-piece model, the
aggregate master, the packing of single trips and the greedy plan all take the same rows.
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
    """Units of a cargo ride with one person only; in the pack on `pack_trips`."""

    rule_id: str
    cargo: int
    person_id: str
    pack_trips: frozenset[int] = frozenset()


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


Row = StockRow | ConserveRow | RideRow | CarrierRow | OwnRow | LoadRow | ApartRow
