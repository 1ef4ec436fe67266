"""What the pages know of a plan: its outcome, its request, names, and how to write quantities."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from decimal import Decimal
from typing import Any, Literal

from service.reports.paper.things import Things, is_in_use
from service.translate.read.quantities import FACTORS, exactly

UnitSystem = Literal["metric", "us"]
Json = dict[str, Any]

_LB, _OZ_PER_LB = float(FACTORS["lb"]) / 1000, 16
_QT, _FT = float(FACTORS["qt"]) / 1000, float(FACTORS["ft"])


@dataclass(frozen=True, slots=True)
class Writer:
    """Writes quantities in metric or in US units."""

    units: UnitSystem

    @property
    def mass_unit(self) -> str:
        """The unit of masses, for headers."""
        return "kg" if self.units == "metric" else "lb"

    @property
    def volume_unit(self) -> str:
        """The unit of volumes, for headers."""
        return "L" if self.units == "metric" else "qt"

    def mass(self, kilograms: float, decimals: int = 1) -> str:
        """A mass without its unit."""
        return f"{kilograms if self.units == 'metric' else kilograms / _LB:.{decimals}f}"

    def volume(self, litres: float) -> str:
        """A volume without its unit."""
        return f"{litres if self.units == 'metric' else litres / _QT:.1f}"

    def elevation(self, metres: float) -> str:
        """An elevation with its unit."""
        return f"{metres:.0f} m" if self.units == "metric" else f"{metres / _FT:.0f} ft"


@dataclass(frozen=True, slots=True)
class LineEntry:
    """A plan of the line of re-plans: when it was counted for it, in words, and what it said."""

    plan_id: str
    counted: str | None
    say: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class ReportSaid:
    """A report after the expedition: when it was stored, in words, and what it says."""

    stored: str
    say: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class PlanFacts:
    """A solved plan with what its pages need."""

    plan_id: str
    version: int
    made_at: str
    outcome: Json
    request: Json
    write: Writer
    figures: tuple[Json, ...] = ()
    line: tuple[LineEntry, ...] = ()
    reports: tuple[ReportSaid, ...] = ()
    superseded_by: str | None = None
    what_if: bool = False
    things: Things = field(init=False, repr=False, compare=False)

    @property
    def plan(self) -> Json:
        """The ledger."""
        found: Json = self.outcome["plan"]
        return found

    def __post_init__(self) -> None:
        """Look the names of all things up once."""
        object.__setattr__(self, "things", Things(self.outcome["plan"], times="×"))

    def label(self, unit: Json) -> str:
        """What units are called, with whose they are; their name or id where the plan lacks it."""
        label = self.things.label(unit["unit_id"])
        return label if label != unit["unit_id"] else str(unit["name"] or label)

    def said(self, unit: Json) -> str:
        """Units of one kind as people say them: how many of what, and whose."""
        return f"{unit['count']} × {self.label(unit)}" if unit["count"] > 1 else self.label(unit)

    @property
    def title(self) -> str:
        """What the plan is called."""
        return self.outcome["title"] or self.outcome["reference"] or self.plan_id

    def person(self, person_id: str) -> str:
        """The name of a person, or the id."""
        return str(self._person(person_id).get("name") or person_id)

    def place(self, place_id: str) -> str:
        """The name of a place, or the id."""
        return str(self._place(place_id).get("name") or place_id)

    def elevation_m(self, place_id: str) -> float:
        """The elevation of a place [m]."""
        return float(exactly(self._place(place_id)["elevation"]))

    def storm_nights(self, place_id: str) -> int:
        """The nights of reserve of a place."""
        return int(self._place(place_id).get("storm_nights", 0))

    def _person(self, person_id: str) -> Json:
        people: list[Json] = self.request["roster"]
        return next((person for person in people if person["person_id"] == person_id), {})

    def _place(self, place_id: str) -> Json:
        places: list[Json] = self.request["route"]["places"]
        return next(place for place in places if place["place_id"] == place_id)

    @property
    def places(self) -> list[str]:
        """The places in the order of the route."""
        return [str(place["place_id"]) for place in self.request["route"]["places"]]

    @property
    def people(self) -> list[str]:
        """The people in the order of the roster."""
        return [str(person["person_id"]) for person in self.request["roster"]]

    def body_mass_kg(self, person_id: str) -> float | None:
        """The body mass of a person [kg], if it is given."""
        mass = self._person(person_id).get("body_mass")
        return None if mass is None else float(exactly(mass) / Decimal(1000))

    def trips_of(self, day: int) -> list[Json]:
        """The trips of a day in their order."""
        return [trip for trip in self.plan["trips"] if trip["day"] == day]

    def loads_of(self, person_id: str) -> Iterator[tuple[Json, Json]]:
        """The trips of a person, each with the load."""
        for trip in self.plan["trips"]:
            for load in trip["loads"]:
                if load["person_id"] == person_id:
                    yield trip, load

    def day_name(self, day: int) -> str:
        """A day with its date."""
        date = next((d["date"] for d in self.plan["days"] if d["day"] == day), None)
        return f"day {day}" if date is None else f"day {day}, {date}"

    def way(self, trip: Json) -> str:
        """A trip in words."""
        return f"{self.place(trip['from'])} to {self.place(trip['to'])}"


def named(unit: Json) -> str:
    """Units of one kind as people say them: how many and their name; the id where none is given."""
    many = f"{unit['count']} × " if unit["count"] > 1 else ""
    return f"{many}{unit['name'] or unit['unit_id']}"


def besides_own_kit(facts: PlanFacts, units: list[Json], person_id: str) -> str:
    """What somebody carries besides the own kit, in words; of the kit how many pieces and its mass.

    What is in use is in no load, and is left out.
    """
    stowed = [unit for unit in units if not is_in_use(unit)]
    others = [facts.said(unit) for unit in stowed if not is_own(unit, person_id)]
    own = [unit for unit in stowed if is_own(unit, person_id)]
    pieces, kg = sum(u["count"] for u in own), sum(u["count"] * u["each_kg"] for u in own)
    many = f"{pieces} pieces" if pieces > 1 else "1 piece"
    mass = f"{facts.write.mass(kg)} {facts.write.mass_unit}"
    kit = [f"own kit ({many}, {mass})"] if own else []
    return "; ".join([*others, *kit]) or "–"


def water_and_lunch(load: Json, write: Writer) -> str:
    """The water and the lunch of one person on a trip, which are in the pack besides all else."""
    water, lunch = (write.mass(load[f"{what}_kg"]) for what in ("water", "lunch"))
    return f"water {water} {write.mass_unit}, lunch {lunch} {write.mass_unit}"


def is_own(unit: Json, person_id: str) -> bool:
    """Whether units are part of somebody's personal kit."""
    return str(unit["unit_id"]).startswith(f"{person_id}/")


def units_of(load: Json) -> list[Json]:
    """All units of a load, in the pack and on the sled."""
    return [*load["pack"], *load["sled"]]
