"""The plan: who carries what on which trip, and what stands where each night, as frozen data.

Units are named so that the same thing has the same name everywhere in a plan:

- `rope`, `m1/sleeping-bag`: items, personal ones with their owner in front;
- `cg1/low`: a bag of night sets; `cg1/can`: a full, unopened container;
- `cg1/can/open-2`: the second container that the cook group opened, while something is left
  in it; `cg1/can/empty-2`: the same once it is empty;
- `trash/camp-1/1-2`, `human-waste/camp-1/1-2`: second sack of the first stay at a place;
  `trash/camp-1/cg1/1-2`: the same of one cook group, where somebody reacts severely.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from solver.rulebook import RuleKind


@dataclass(frozen=True, slots=True)
class Stowed:
    """Identical units in one pack, sled or store; mass and volume are those of one [g, mL].

    Items in use on the trip are listed with the mass and volume that they add, which is 0.
    """

    unit_id: str
    count: int
    mass_g: int
    volume_ml: int


@dataclass(frozen=True, slots=True)
class Load:
    """What one person carries on one trip.

    The pack's gross mass is its units plus `water_g` and `lunch_g`; the sled's is its units
    plus the sled's tare. `sled_id` is None and `sled` empty for who hauls none.
    """

    person_id: str
    water_g: int
    lunch_g: int
    pack: tuple[Stowed, ...]
    sled_id: str | None = None
    sled: tuple[Stowed, ...] = ()


@dataclass(frozen=True, slots=True)
class TripLoads:
    """The loads of everybody on one trip; day and step count from 1."""

    day: int
    step: int
    from_place: str
    to_place: str
    loads: tuple[Load, ...]


@dataclass(frozen=True, slots=True)
class NightStock:
    """What stands at one place after the night of a day: what was used is gone.

    Day 0 is the start, before anybody moves; the last day's entry is the end of the trip.
    Open containers hold what is left after the night.
    """

    day: int
    place_id: str
    units: tuple[Stowed, ...]


@dataclass(frozen=True, slots=True)
class FlightLoad:
    """Who and what is on one flight to or from the start place.

    Units have the mass and the whole volume of one, whatever rides outside packs included.
    A sled flies as `sled/` and its id, with its tare and no volume: it is loaded itself.
    """

    flight_id: str
    person_ids: tuple[str, ...]
    units: tuple[Stowed, ...]


class ElsewhereReason(StrEnum):
    """Why a thing is not with its keeper on a trip, the first of these that holds."""

    NOT_ON_TRIP = "not_on_trip"
    """The keeper takes no part in the trip."""

    LOAD = "load"
    """With it the keeper's load fraction would be above the plan's peak, in pack and on sled."""

    VOLUME = "volume"
    """There is no room for it."""

    OTHER = "other"
    """The caps do not forbid it: rules that keep things apart, preferences, or balance."""


@dataclass(frozen=True, slots=True)
class Elsewhere:
    """Units of a kept thing that somebody other than the keeper has on one trip."""

    day: int
    step: int
    from_place: str
    to_place: str
    person_id: str
    count: int
    reason: ElsewhereReason


@dataclass(frozen=True, slots=True)
class Keeper:
    """Who has a single piece of kit, or a bundle of small alike things, on the trips that it rides.

    The keeper is who the request names (`is_named`), else whoever has it on most trips: of a
    bundle, most units over all trips. Of several the first to have it keeps it, then the first
    of the roster. `trips` counts those on which it rides, from `from_day` to `to_day`;
    `elsewhere` are the exceptions in the order of the trips, then of the roster.
    """

    unit_id: str
    person_id: str
    is_named: bool
    from_day: int
    to_day: int
    trips: int
    elsewhere: tuple[Elsewhere, ...] = ()


@dataclass(frozen=True, slots=True)
class Plan:
    """The whole ledger of a trip.

    `provided` is what is taken along: every unit that stands at the start place on day 0,
    as in the `stock` entry of day 0. Trips are in the order of the timeline, flights in that
    of the request; there are none where the request has none. `keepers` follow from the loads,
    in the order of the request's gear; a plan that was read from elsewhere has none.
    """

    trips: tuple[TripLoads, ...]
    stock: tuple[NightStock, ...]
    flights: tuple[FlightLoad, ...] = ()
    keepers: tuple[Keeper, ...] = ()


@dataclass(frozen=True, slots=True)
class GoalValue:
    """One goal of a plan, as the register in `solver.rulebook.goals` has it.

    `bound` is a value that no plan can be below, None where none is known; `proven` says
    that value and bound are one (within the goal's stated tolerance).
    """

    goal_id: str
    value: int
    bound: int | None
    proven: bool
    unit: str


@dataclass(frozen=True, slots=True)
class Finding:
    """What the checker has to say of one rule: broken, and by how much.

    `amount` is in `unit` and says how far the limit is passed; `where` names day, step,
    place, person, sled or unit as (name, value) pairs; `instead` what would be allowed.
    """

    rule_id: str
    message: str
    amount: int
    unit: str
    where: tuple[tuple[str, str | int], ...] = ()
    instead: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Remark:
    """A finding that does not forbid the plan: a preference not kept, or a word of caution.

    `reason` is the leader's where a hard rule was stated as a caution, else empty.
    """

    kind: RuleKind
    finding: Finding
    reason: str = ""
