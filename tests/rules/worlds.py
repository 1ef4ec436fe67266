"""Tiny worlds and hand-made plans, and cases that ask one rule at, above and below its limit.

Every `test_<rule>.py` here has its worlds in a tuple `CASES`. A case carries the problem, a
plan written by hand for the checker, what the checker must find in it, and whether the problem
has any plan at all, which is what the model must say of the same world.
The file is long because all tests of rules write their worlds in its words.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from itertools import pairwise

from solver.checker import check, check_request
from solver.plan import Load, NightStock, Plan, Stowed, TripLoads
from solver.problem import (
    Calendar,
    Caps,
    CookGroup,
    Day,
    Direction,
    Hazard,
    Item,
    Leg,
    LegMode,
    Need,
    NeedKind,
    NightSet,
    Person,
    Place,
    PlaceKind,
    Problem,
    Purpose,
    Reserve,
    Route,
    RuleSettings,
    Sled,
    Visit,
    Waste,
    read_timeline,
)
from solver.quantities import fuel_mass_nearest
from solver.rulebook import RULES

EVERY_NIGHT = Need(NeedKind.EVERY_NIGHT)
EVERY_TRIP = Need(NeedKind.EVERY_TRIP)

MEAL = NightSet("meal", "g1", gross_g=10, packaging_g=0, lunch_g=0, volume_ml=0, fuel_ml=0)
"""A night set that weighs next to nothing and leaves nothing, for worlds about other things."""

Weights = Mapping[tuple[str, int], tuple[int, int]]
"""Mass and volume of one unit [g, mL] by unit and day, of what is made or in use."""


@dataclass(frozen=True)
class Case:
    """A world and a plan with what the checker finds in it, as (rule, amount) pairs.

    `solvable` says whether any plan of the problem keeps every rule.
    """

    name: str
    problem: Problem
    plan: Plan
    finds: tuple[tuple[str, int], ...] = ()
    solvable: bool = True

    def __str__(self) -> str:
        """The name, for the test's id."""
        return self.name


@dataclass(frozen=True)
class RequestCase:
    """A world with what a rule on the request alone finds in it, as (rule, amount) pairs.

    `solvable` says whether any plan of the problem keeps every rule.
    """

    name: str
    problem: Problem
    finds: tuple[tuple[str, int], ...] = ()
    solvable: bool = True

    def __str__(self) -> str:
        """The name, for the test's id."""
        return self.name


def asked_alone(problem: Problem, *rule_ids: str) -> Problem:
    """The problem with all rules of glaciers but some turned off, so that these are alone."""
    off = {rule.rule_id for rule in RULES if rule.on_glaciers} - set(rule_ids)
    settings = replace(problem.rules, switched_off=problem.rules.switched_off | off)
    return replace(problem, rules=settings)


def on_glacier(problem: Problem, hazard: Hazard = Hazard.HIGH) -> Problem:
    """The problem with a crevasse hazard on every leg."""
    legs = tuple(replace(leg, crevasse_hazard=hazard) for leg in problem.route.legs)
    return replace(problem, route=replace(problem.route, legs=legs))


def glacier(problem: Problem, rule_id: str, **numbers: float) -> Problem:
    """The problem on a glacier with one rule of glaciers asked, and some of its numbers other."""
    problem = asked_alone(on_glacier(problem), rule_id)
    rules = replace(problem.rules, numbers=(*problem.rules.numbers, *numbers.items()))
    return replace(problem, rules=rules)


def request_found(problem: Problem, rule_id: str) -> tuple[tuple[str, int], ...]:
    """What one rule on the request finds, forbidden or remarked, as (rule, amount) pairs."""
    report = check_request(problem)
    told = [*report.findings, *(remark.finding for remark in report.remarks)]
    return tuple((f.rule_id, f.amount) for f in told if f.rule_id == rule_id)


def remarked(problem: Problem, plan: Plan, rule_id: str) -> tuple[tuple[str, int], ...]:
    """What a preference or caution finds in a plan, as (rule, amount) pairs."""
    told = [remark.finding for remark in check(problem, plan).remarks]
    return tuple((f.rule_id, f.amount) for f in told if f.rule_id == rule_id)


def found(problem: Problem, plan: Plan) -> tuple[tuple[str, int], ...]:
    """What the checker finds, as (rule, amount) pairs in its order."""
    return tuple((f.rule_id, f.amount) for f in check(problem, plan).findings)


def person(
    person_id: str = "m1",
    *,
    pack_g: int = 20_000,
    sled_g: int = 0,
    total_g: int | None = None,
    pack_by_leg: tuple[tuple[LegMode, Direction, int], ...] = (),
    pack_volume_ml: int = 80_000,
    water_g: int = 0,
    first_lunch_g: int = 0,
    rope_team_id: str = "r1",
    cook_group_id: str = "g1",
) -> Person:
    """A person with wide caps."""
    return Person(
        person_id=person_id,
        caps=Caps(pack_g=pack_g, sled_g=sled_g, total_g=total_g, pack_by_leg=pack_by_leg),
        pack_volume_ml=pack_volume_ml,
        rope_team_id=rope_team_id,
        cook_group_id=cook_group_id,
        water_g=water_g,
        first_lunch_g=first_lunch_g,
    )


def item(
    item_id: str,
    need: Need = EVERY_TRIP,
    *,
    mass_g: int = 1_000,
    volume_ml: int = 1_000,
    owner_id: str | None = None,
    rope_team_id: str | None = None,
    count: int = 1,
    in_use_on: tuple[LegMode, ...] = (),
    outside: bool = False,
    apart_kind: str | None = None,
    purpose: Purpose | None = None,
    shelter_places: int = 0,
) -> Item:
    """An item of a kilogram and a litre that rides every trip, unless told otherwise."""
    return Item(
        item_id,
        mass_g,
        volume_ml,
        need,
        count=count,
        owner_id=owner_id,
        rope_team_id=rope_team_id,
        in_use_on=in_use_on,
        outside=outside,
        apart_kind=apart_kind,
        purpose=purpose,
        shelter_places=shelter_places,
    )


def world(
    days: str = "strip-c1-strip",
    *,
    people: tuple[Person, ...] = (person(),),
    gear: tuple[Item, ...] = (),
    sleds: tuple[Sled, ...] = (),
    sled_leg_factors: tuple[int, int] | None = None,
    groups: tuple[CookGroup, ...] | None = None,
    night_sets: tuple[NightSet, ...] = (MEAL,),
    reserves: tuple[Reserve, ...] = (),
    waste: Waste | None = None,
    fuel_margin_percent: int = 0,
    rules: RuleSettings | None = None,
) -> Problem:
    """A world on the line strip - c1 - c2 - c3, a thousand metres of height apart.

    Days are written as places joined by hyphens, parted by spaces. What comes after a stroke
    is what rope team r2 does; else all teams go together. `sled_leg_factors`, up and down,
    make the first leg a sled leg. Every cook group uses its `meal` wherever it sleeps.
    """
    names = ["strip", "c1", "c2", "c3"]
    used = names[: max(i for i, name in enumerate(names) if name in days) + 1]
    up, down = sled_leg_factors or (100, 100)
    first = LegMode.PACK if sled_leg_factors is None else LegMode.SLED
    if groups is None:
        groups = (CookGroup("g1", tuple((place, "meal") for place in used)),)
    teams = tuple(dict.fromkeys(p.rope_team_id for p in people))
    return Problem(
        route=Route(
            tuple(
                Place(name, 1000 * i, PlaceKind.CAMP if i else PlaceKind.AIRSTRIP)
                for i, name in enumerate(used)
            ),
            tuple(
                Leg(f"{a}-{b}", a, b, LegMode.PACK if i else first, up, down)
                for i, (a, b) in enumerate(pairwise(used))
            ),
        ),
        calendar=Calendar(tuple(_day(day, teams) for day in days.split())),
        roster=people,
        sleds=sleds,
        gear=gear,
        cook_groups=groups,
        night_sets=night_sets,
        reserves=reserves,
        waste=waste or Waste(),
        fuel_margin_percent=fuel_margin_percent,
        rules=rules or RuleSettings(),
    )


def _day(day: str, teams: tuple[str, ...]) -> Day:
    together, _, apart = day.partition("|")
    if not apart:
        return Day((Visit(teams, tuple(together.split("-"))),))
    return Day(
        (Visit(("r1",), tuple(together.split("-"))), Visit(("r2",), tuple(apart.split("-"))))
    )


def plan_of(
    problem: Problem,
    *trips: Mapping[str, str],
    weights: Weights | None = None,
    lunches: Mapping[int, int] | None = None,
    stock: Mapping[tuple[int, str], str] | None = None,
) -> Plan:
    """A plan written as one mapping a trip, from person to what is in the pack and on the sled.

    Units are parted by spaces, several alike written `can*2`, the sled's after a stroke. Water
    is each person's; lunch is that of day 1, later what `lunches` say of the day. `weights`
    tell what open and empty containers, sacks and items in use weigh on a day.
    """
    timeline = read_timeline(problem)
    assert len(trips) == len(timeline.trips), f"write {len(timeline.trips)} trips"
    scales = _Scales(problem, weights or {})
    hauled = {sled.hauler_id: sled.sled_id for sled in problem.sleds}
    told = []
    for trip, loads in zip(timeline.trips, trips, strict=True):
        rows = []
        for person_id in trip.person_ids:
            who = problem.person(person_id)
            water_g = _water_g(problem, who, trip.day)
            pack, _, sled = loads.get(person_id, "").partition("|")
            sled_id = hauled.get(person_id)
            rows.append(
                Load(
                    person_id,
                    water_g,
                    who.first_lunch_g if trip.day == 1 else (lunches or {}).get(trip.day, 0),
                    scales.stow(pack, trip.day),
                    sled_id if sled_id in trip.sled_ids else None,
                    scales.stow(sled, trip.day),
                )
            )
        told.append(TripLoads(trip.day, trip.step, trip.from_place, trip.to_place, tuple(rows)))
    return Plan(
        tuple(told),
        tuple(
            NightStock(day, place, scales.stow(units, day + 1))
            for (day, place), units in (stock or {}).items()
        ),
    )


def _water_g(problem: Problem, who: Person, day: int) -> int:
    summits = [p.place_id for p in problem.route.places if p.kind is PlaceKind.SUMMIT]
    visited = problem.calendar.days[day - 1].visit_of(who.rope_team_id).places
    if who.summit_water_g is not None and any(place in visited for place in summits):
        return who.summit_water_g
    return who.water_g


class _Scales:
    """What units are said to weigh and to take."""

    def __init__(self, problem: Problem, weights: Weights) -> None:
        self.weights = weights
        self.known = {i.unit_id: (i.mass_g, i.packed_volume_ml) for i in problem.gear}
        for s in problem.night_sets:
            bag = s.gross_g * s.sets_per_bag, s.volume_ml * s.sets_per_bag
            self.known[s.unit_id] = bag
        for group in problem.cook_groups:
            for c in group.containers:
                fuel_g = fuel_mass_nearest(
                    volume_ml=c.content_ml, density_g_per_l=problem.fuel_density_g_per_l
                )
                self.known[c.unit_id] = c.tare_g + fuel_g, c.volume_ml

    def stow(self, units: str, day: int) -> tuple[Stowed, ...]:
        rows = []
        for word in units.split():
            unit_id, _, count = word.partition("*")
            weight = self.weights.get((unit_id, day)) or self.known.get(unit_id, (0, 0))
            rows.append(Stowed(unit_id, int(count or 1), *weight))
        return tuple(rows)
