"""Worlds with flights, and what flies written in short, for the tests of the rules of flights."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from solver.plan import FlightLoad, Plan, Stowed
from solver.problem import (
    Container,
    CookGroup,
    Flight,
    FlightDirection,
    Item,
    Need,
    NeedKind,
    NightSet,
    Person,
    Problem,
    Purpose,
)
from solver.quantities import fuel_mass_nearest
from solver.rulebook import RULES, RuleKind, rule
from solver.rulebook.flights import FLIGHTS
from solver.rulebook.ledger import LEDGER
from tests.rules.worlds import Case, found, person, plan_of, world

ELSEWHERE = frozenset(r.rule_id for r in RULES) - {r.rule_id for r in (*LEDGER, *FLIGHTS)}
"""Rules that are about neither the ledger nor flights, which these worlds leave alone."""

STAYS = Need(NeedKind.AT_PLACE, up_to="strip")
WORN = Need(NeedKind.WORN)
FOOD = NightSet("meal", "g1", 500, 0, 0, 1_000, 100, bag_count=3)
"""Three nights for one person, half a kilogram and a tenth of a litre of fuel each."""


def flyer(
    person_id: str = "m1",
    *,
    mass_g: int | None = 100_000,
    cook_group_id: str = "g1",
    sled_g: int = 0,
) -> Person:
    """Somebody of a hundred kilograms in the aircraft, with wide caps."""
    caps = person(person_id, sled_g=sled_g, cook_group_id=cook_group_id)
    return replace(caps, flying_mass_g=mass_g)


def flight_in(
    flight_id: str = "in-1",
    *,
    payload_g: int = 500_000,
    seats: int = 4,
    volume_ml: int | None = None,
    longest_mm: int | None = None,
    person_ids: tuple[str, ...] | None = None,
    fuel_with_people: bool = False,
    loaded_by_operator: bool = False,
) -> Flight:
    """A flight in that takes half a tonne and four people, unless told otherwise."""
    return Flight(
        flight_id,
        FlightDirection.FLY_IN,
        payload_g,
        seats,
        volume_ml,
        longest_mm,
        person_ids,
        fuel_with_people,
        loaded_by_operator,
    )


def out(flight: Flight) -> Flight:
    """The same flight the other way; `in-1` becomes `out-1`."""
    flight_id = flight.flight_id.replace("in", "out")
    return replace(flight, flight_id=flight_id, direction=FlightDirection.FLY_OUT)


def thing(item_id: str, purpose: Purpose | None = None, *, places: int = 0) -> Item:
    """A shared thing of a kilogram and a litre that stays at the start place."""
    return Item(item_id, 1_000, 1_000, STAYS, purpose=purpose, shelter_places=places)


KIT = (
    thing("tent", Purpose.SHELTER, places=1),
    thing("stove", Purpose.STOVE),
    thing("pot", Purpose.POT),
    thing("phone", Purpose.COMMUNICATOR),
    thing("medical", Purpose.MEDICAL_KIT),
)
"""What one person needs to stay, of five kilograms and five litres."""


def stores(*, nights: int = 3, fuel_ml: int = 300) -> dict[str, object]:
    """Food and one can of fuel for a world's cook group, of 0.5 kg a night and 0.7 g/mL."""
    can = Container("can", "g1", content_ml=fuel_ml, tare_g=100, volume_ml=500, count=1)
    groups = (CookGroup("g1", (("strip", "meal"), ("c1", "meal")), (can,)),)
    return {"groups": groups, "night_sets": (replace(FOOD, bag_count=nights),)}


def day_plan(problem: Problem, loads: Mapping[str, str]) -> Plan:
    """A plan of a day trip on which nothing is carried, with what is on its flights."""
    return with_flights(problem, plan_of(problem, {}, {}), loads)


def told(case: Case, rule_id: str) -> tuple[tuple[str, int], ...]:
    """What one rule finds in a case's plan, as (rule, amount) pairs."""
    return tuple(pair for pair in found(case.problem, case.plan) if pair[0] == rule_id)


def flying(
    problem: Problem, flights: tuple[Flight, ...], *rule_ids: str, numbers: Mapping[str, int]
) -> Problem:
    """A problem with flights of whose hard rules only some are asked, and that all fly once."""
    kept = {*rule_ids, "everything_flies_once"}
    off = {
        other.rule_id
        for other in FLIGHTS
        if rule(other.rule_id).kind is RuleKind.HARD and other.rule_id not in kept
    }
    settings = replace(
        problem.rules,
        switched_off=problem.rules.switched_off | off | ELSEWHERE,
        numbers=(*problem.rules.numbers, *numbers.items()),
    )
    return replace(problem, flights=flights, rules=settings)


def flying_world(
    flights: tuple[Flight, ...],
    *rule_ids: str,
    people: tuple[Person, ...] = (flyer(),),
    gear: tuple[Item, ...] = (),
    days: str = "strip-c1-strip",
    numbers: Mapping[str, int] | None = None,
    **more: object,
) -> Problem:
    """A day trip, or another, with flights of which only some rules are asked."""
    ground = world(days, people=people, gear=gear, **more)  # type: ignore[arg-type]
    return flying(ground, flights, *rule_ids, numbers=numbers or {})


def with_flights(problem: Problem, plan: Plan, loads: Mapping[str, str]) -> Plan:
    """A plan with flights, each written as people, a stroke, and units like `can*2`.

    Masses and volumes are true of whole units; those made on the way must be told elsewhere.
    """
    return replace(
        plan, flights=tuple(_load(problem, flight_id, text) for flight_id, text in loads.items())
    )


def _load(problem: Problem, flight_id: str, text: str) -> FlightLoad:
    people, _, units = text.partition("|")
    stowed = []
    for word in units.split():
        unit_id, _, count = word.partition("*")
        stowed.append(Stowed(unit_id, int(count or 1), *_weight(problem, unit_id)))
    return FlightLoad(flight_id, tuple(people.split()), tuple(stowed))


def _weight(problem: Problem, unit_id: str) -> tuple[int, int]:
    known = {item.unit_id: (item.mass_g, item.volume_ml) for item in problem.gear}
    known |= {f"sled/{sled.sled_id}": (sled.tare_g, 0) for sled in problem.sleds}
    for s in problem.night_sets:
        known[s.unit_id] = s.gross_g * s.sets_per_bag, s.volume_ml * s.sets_per_bag
    for group in problem.cook_groups:
        for c in group.containers:
            fuel_g = fuel_mass_nearest(
                volume_ml=c.content_ml, density_g_per_l=problem.fuel_density_g_per_l
            )
            known[c.unit_id] = c.tare_g + fuel_g, c.volume_ml
            for number in range(1, 9):
                known[f"{c.unit_id}/empty-{number}"] = c.tare_g, c.volume_ml
    return known.get(unit_id, (0, 0))
