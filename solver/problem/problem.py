"""The whole problem: what a plan is asked for, as frozen data on the integer grid."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from solver.problem.calendar import Calendar
from solver.problem.conditions import Conditions
from solver.problem.flights import Flight
from solver.problem.gear import Item
from solver.problem.history import History
from solver.problem.pins import Pin
from solver.problem.roster import Person, Sled
from solver.problem.route import Route
from solver.problem.supplies import CookGroup, NightSet, Reserve, Waste
from solver.rulebook import RuleKind, rule, setting

ElevationBand = Literal["low", "mid", "high"]


@dataclass(frozen=True, slots=True)
class RuleSettings:
    """What the rules take from the request.

    `pack_volume_allowance_percent` is what may be lashed outside beyond the pack's volume.
    `switched_off` names rules that are not asked at all; `waived` are hard rules
    that only warn, each with the leader's reason. `numbers` are settings of rules that differ
    from the rulebook's.
    """

    pack_volume_allowance_percent: int = 10
    switched_off: frozenset[str] = frozenset()
    waived: tuple[tuple[str, str], ...] = ()
    numbers: tuple[tuple[str, float], ...] = ()

    def number(self, name: str) -> float:
        """The number of that name: the request's, else the rulebook's; KeyError for neither."""
        return dict(self.numbers).get(name, setting(name).value)

    def whole(self, name: str) -> int:
        """The same for a number without a fraction."""
        return int(self.number(name))

    def elevation_band(self, elevation_m: int) -> ElevationBand:
        """Band of a place, the same for food, water, fuel and rules; it begins at its limit."""
        if elevation_m >= self.number("high_from_m"):
            return "high"
        return "mid" if elevation_m >= self.number("middle_from_m") else "low"

    def kind_of(self, rule_id: str) -> RuleKind:
        """What breaking a rule means in this request."""
        if rule_id in dict(self.waived):
            return RuleKind.ADVISORY
        return rule(rule_id).kind

    def reason_for(self, rule_id: str) -> str:
        """Why a hard rule is waived, empty for all others."""
        return dict(self.waived).get(rule_id, "")


@dataclass(frozen=True, slots=True)
class Evacuation:
    """The wish to know whether a person could be taken down early, from a day on.

    `day` None asks for every day.
    """

    person_id: str
    day: int | None = None


@dataclass(frozen=True, slots=True)
class Problem:
    """An expedition to plan; every id that one part names is defined in another.

    `fuel_density_g_per_l` and `fuel_margin_percent` hold for all liquid fuel: each night
    burns people × set fuel, raised by the margin and rounded up to a whole millilitre. With
    a `history` only the rest is planned. `pins` are loads made by hand, which a plan must keep.
    `left` are people who went their own way; the `roster` is those who are there from then on.
    """

    route: Route
    calendar: Calendar
    roster: tuple[Person, ...]
    sleds: tuple[Sled, ...] = ()
    gear: tuple[Item, ...] = ()
    cook_groups: tuple[CookGroup, ...] = ()
    night_sets: tuple[NightSet, ...] = ()
    reserves: tuple[Reserve, ...] = ()
    waste: Waste = field(default_factory=Waste)
    fuel_density_g_per_l: int = 700
    fuel_margin_percent: int = 0
    rules: RuleSettings = field(default_factory=RuleSettings)
    conditions: Conditions = field(default_factory=Conditions)
    flights: tuple[Flight, ...] = ()
    evacuations: tuple[Evacuation, ...] = ()
    pins: tuple[Pin, ...] = ()
    history: History | None = None
    left: tuple[Person, ...] = ()

    @property
    def everybody(self) -> tuple[Person, ...]:
        """All who were ever there, those on the roster first."""
        return (*self.roster, *self.left)

    def person(self, person_id: str) -> Person:
        """The person of that id, who may have left; KeyError when there is none."""
        for person in self.everybody:
            if person.person_id == person_id:
                return person
        raise KeyError(person_id)

    def cook_group(self, cook_group_id: str) -> CookGroup:
        """The cook group of that id; KeyError when there is none."""
        for group in self.cook_groups:
            if group.cook_group_id == cook_group_id:
                return group
        raise KeyError(cook_group_id)

    def night_set(self, cook_group_id: str, set_id: str) -> NightSet:
        """A cook group's night set of that id; KeyError when there is none."""
        for night_set in self.night_sets:
            if night_set.cook_group_id == cook_group_id and night_set.set_id == set_id:
                return night_set
        raise KeyError((cook_group_id, set_id))

    def members(self, cook_group_id: str) -> tuple[Person, ...]:
        """The people of a cook group, in roster order, without those who have left."""
        return tuple(p for p in self.roster if p.cook_group_id == cook_group_id)

    def eaters(self, cook_group_id: str, night: int) -> tuple[Person, ...]:
        """Who of a cook group is there on the night of a day."""
        return tuple(
            person
            for person in self.everybody
            if person.cook_group_id == cook_group_id and person.presence.sleeps_on(night)
        )

    @property
    def kitchens(self) -> tuple[CookGroup, ...]:
        """The cook groups that have a kitchen of their own, in order."""
        return tuple(group for group in self.cook_groups if group.kitchen_of is None)

    def fed_from(self, kitchen: CookGroup) -> tuple[CookGroup, ...]:
        """The cook groups whose food is cooked in a kitchen, its own first; none for a guest."""
        own = (kitchen,) if kitchen.kitchen_of is None else ()
        guests = (g for g in self.cook_groups if g.kitchen_of == kitchen.cook_group_id)
        return (*own, *guests)

    def kitchen_id(self, cook_group_id: str) -> str:
        """The kitchen of the cook group of that id; KeyError when there is no such group."""
        return self.cook_group(cook_group_id).kitchen_id

    @property
    def start_place(self) -> str:
        """Where the trip begins and everything stands before it."""
        return self.calendar.days[0].visits[0].places[0]

    @property
    def is_glaciated(self) -> bool:
        """Whether any leg gives its crevasse hazard, which calls for the rules of glaciers."""
        return any(leg.crevasse_hazard is not None for leg in self.route.legs)

    @property
    def is_guided(self) -> bool:
        """Whether anybody on the roster is a guide."""
        return any(person.is_guide for person in self.roster)

    def asks(self, rule_id: str) -> bool:
        """Whether a rule of the rulebook is asked of this problem at all."""
        if rule_id in self.rules.switched_off:
            return False
        return self.is_glaciated or not rule(rule_id).on_glaciers

    def is_over(self, day: int) -> bool:
        """Whether the trips of a day have been made."""
        return self.history is not None and day <= self.history.day

    def must_keep(self, rule_id: str) -> bool:
        """Whether a plan that breaks a rule is no plan."""
        return self.asks(rule_id) and self.rules.kind_of(rule_id) is RuleKind.HARD
