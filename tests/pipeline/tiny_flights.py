"""Tiny worlds with flights, and all ways of loading them, tried one by one.

Which ways are allowed is the checker's word; the least largest share of a payload is the least
over all of them. Nothing here knows of the model.
"""

from __future__ import annotations

import random
from collections import Counter
from collections.abc import Iterator
from dataclasses import replace
from itertools import combinations_with_replacement, product
from operator import itemgetter

from solver.checker.ledger.facts import read_facts
from solver.checker.ledger.replay import Replay, replay
from solver.checker.rules import RULES
from solver.plan import FlightLoad, Plan, Stowed
from solver.problem import Flight, FlightDirection, Item, Problem, Purpose
from solver.rulebook import RuleKind
from solver.rulebook.flights import FLIGHTS
from tests.rules.flying import ELSEWHERE, flight_in, flyer, out, stores, thing
from tests.rules.worlds import plan_of, world

_HARD = {rule.rule_id for rule in FLIGHTS if rule.kind is RuleKind.HARD}
_JUDGES = tuple(judge for rule_id, judge in RULES if rule_id in _HARD)

KINDS = (Purpose.STOVE, Purpose.COMMUNICATOR, Purpose.MEDICAL_KIT, Purpose.POT)


def tiny_flights(seed: int) -> Problem:
    """Two people and a few things on two flights of one direction."""
    draw = random.Random(seed)
    people = [
        replace(
            flyer(f"m{n}", mass_g=draw.randrange(70, 110) * 1_000),
            is_guide=draw.random() < 0.3,
            avoids=("nuts",) if draw.random() < 0.3 else (),
        )
        for n in (1, 2)
    ]
    gear = [thing("shovel", Purpose.SHOVEL)]
    gear += [_weighed(draw, thing("tent", Purpose.SHELTER, places=draw.choice((1, 2, 2))))]
    gear += [_weighed(draw, thing(kind.value, kind)) for kind in KINDS]
    if draw.random() < 0.4:
        gear[2] = replace(gear[2], count=2)
    if draw.random() < 0.5:
        gear.append(replace(thing("pen", Purpose.INJECTOR), owner_id="m1"))
    inbound = draw.random() < 0.6
    flights = [_flight(draw, number) for number in (1, 2)]
    ground = world(
        "strip-c1-strip",
        people=tuple(people),
        gear=tuple(gear),
        **stores(nights=draw.choice((2, 3, 4)), fuel_ml=draw.choice((200, 300))),
    )
    rules = replace(
        ground.rules,
        switched_off=ELSEWHERE,
        numbers=(("first_flight_nights", 1), ("own_food_nights", draw.choice((1, 2)))),
    )
    flown = tuple(flights if inbound else map(out, flights))
    return replace(ground, flights=flown, rules=rules)


def _weighed(draw: random.Random, item: Item) -> Item:
    length_mm = draw.choice((None, 500, 900))
    return replace(item, mass_g=draw.randrange(1, 30) * 500, length_mm=length_mm)


def _flight(draw: random.Random, number: int) -> Flight:
    return flight_in(
        f"in-{number}",
        payload_g=draw.randrange(120, 300) * 1_000,
        seats=draw.choice((1, 2, 2, 2)),
        volume_ml=draw.choice((None, None, 6_000, 9_000)),
        longest_mm=draw.choice((None, 600, 900)),
        fuel_with_people=draw.random() < 0.7,
        loaded_by_operator=draw.random() < 0.5,
    )


def least_fraction(problem: Problem) -> int | None:
    """The least largest share of a payload that any allowed way has, None without any.

    In 1/10,000, rounded up; on the way out of nine tenths of the payload, rounded down.
    """
    ground = replay(read_facts(problem), plan_of(problem, {}, {}))
    shared = sorted(((_fraction(problem, way), way) for way in _ways(problem)), key=itemgetter(0))
    for fraction, way in shared:
        if _allowed(problem, ground, way):
            return fraction
    return None


def largest_share(problem: Problem, plan: Plan) -> int:
    """The largest share of a payload in a plan [1/10,000, rounded up]."""
    return _fraction(problem, plan.flights)


def _allowed(problem: Problem, ground: Replay, way: tuple[FlightLoad, ...]) -> bool:
    """Whether no hard rule of flights finds anything; the plan on the ground is always the same."""
    for flight, load in zip(problem.flights, way, strict=True):
        # Most ways fail here, without the work of a check.
        if len(load.person_ids) > flight.seats or _mass_g(problem, load) > flight.payload_g:
            return False
    flown = replace(ground, plan=replace(ground.plan, flights=way))
    return not any(finding for judge in _JUDGES for finding in judge(flown))


def _fraction(problem: Problem, way: tuple[FlightLoad, ...]) -> int:
    shares = []
    for flight, load in zip(problem.flights, way, strict=True):
        mass_g = _mass_g(problem, load)
        payload_g = flight.payload_g
        if flight.direction is FlightDirection.FLY_OUT:
            payload_g = payload_g * 9 // 10
        shares.append(-(-mass_g * 10_000 // payload_g))
    return max(shares)


def _mass_g(problem: Problem, load: FlightLoad) -> int:
    people = (problem.person(person_id).flying_mass_g or 0 for person_id in load.person_ids)
    return sum(people) + sum(s.count * s.mass_g for s in load.units)


def _ways(problem: Problem) -> Iterator[tuple[FlightLoad, ...]]:
    """Every way of sharing out people and units over the flights, alike units being alike."""
    numbers = range(len(problem.flights))
    night_set, can = problem.night_sets[0], problem.cook_groups[0].containers[0]
    units = [Stowed(i.unit_id, i.count, i.mass_g, i.volume_ml) for i in problem.gear]
    units.append(
        Stowed(night_set.unit_id, night_set.bag_count or 0, night_set.gross_g, night_set.volume_ml)
    )
    # White gas of 0.7 g/mL: a hundred millilitres are 70 g.
    units.append(Stowed(can.unit_id, 1, can.tare_g + can.content_ml * 7 // 10, can.volume_ml))
    choices = [combinations_with_replacement(numbers, unit.count) for unit in units]
    shared = [tuple(map(Counter, choice)) for choice in choices]
    for seats in product(numbers, repeat=len(problem.roster)):
        for way in product(*shared):
            yield tuple(
                FlightLoad(
                    flight.flight_id,
                    tuple(
                        p.person_id for p, f in zip(problem.roster, seats, strict=True) if f == n
                    ),
                    tuple(
                        replace(unit, count=counts[n])
                        for unit, counts in zip(units, way, strict=True)
                        if counts[n]
                    ),
                )
                for n, flight in enumerate(problem.flights)
            )
