"""What people at the start place lack to get through nights there, between flights."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from solver.checker.ledger.facts import Facts
from solver.checker.queries.flights import FlownFlight
from solver.checker.queries.holdings import fuel_ml, in_hand, night_sets
from solver.checker.queries.telling import Where, litres
from solver.checker.queries.waiting import Waiting
from solver.checker.queries.worn import worn_by
from solver.problem import CookGroup, Item, NeedKind, Problem, Purpose
from solver.quantities import share_up


@dataclass(frozen=True, slots=True)
class Lack:
    """One thing that is missing: `thing` names it, `amount` is in `unit`."""

    thing: str
    words: str
    amount: int
    unit: str
    where: Where = ()


def lacks(waiting: Waiting, purposes: tuple[Purpose, ...], nights: int) -> Iterator[Lack]:
    """What those who wait lack of shelter, things for some purposes, food and fuel."""
    places = sum(
        item.shelter_places * count
        for item, count in _at_hand(waiting)
        if item.purpose is Purpose.SHELTER
    )
    if (short := len(waiting.people) - places) > 0:
        words = f"shelter for {places} of {len(waiting.people)} people"
        yield Lack("shelter", words, short, "places")
    for purpose in purposes:
        if not any(count for item, count in _at_hand(waiting) if item.purpose is purpose):
            yield Lack(purpose.value, f"no {purpose.value.replace('_', ' ')}", 1, "units")
    for group in waiting.side.facts.problem.cook_groups:
        yield from _stores(waiting, group, nights)


def _stores(waiting: Waiting, group: CookGroup, nights: int) -> Iterator[Lack]:
    facts, group_id = waiting.side.facts, group.cook_group_id
    last_night = len(facts.problem.calendar.days) - 1
    people = waiting.members(group_id)
    where: Where = (("cook_group", group_id),)
    for_them = f"{people} of cook group {group_id} for {nights} nights"
    if (short := nights * people - in_hand(night_sets(facts, group_id), waiting.counts)) > 0:
        words = f"{short} night sets too few for {for_them}"
        yield Lack(f"food of {group_id}", words, short, "night sets", where)
    if group.kitchen_of is not None:
        return
    waiting_nights = {
        each.cook_group_id: nights * waiting.members(each.cook_group_id)
        for each in facts.problem.cook_groups
    }
    need_ml = fuel_need_ml(facts.problem, group, waiting_nights)
    if (short_ml := need_ml - in_hand(fuel_ml(facts, last_night, group_id), waiting.counts)) > 0:
        words = f"{litres(short_ml)} of fuel too little for {for_them}"
        yield Lack(f"fuel of {group_id}", words, short_ml, "mL", where)


def fuel_need_ml(problem: Problem, kitchen: CookGroup, person_nights: Mapping[str, int]) -> int:
    """Fuel of a kitchen for nights at the start place, guests' too, with the margin [mL].

    The nights of persons are by cook group. Where a group names no set for that place, its fuel
    is that of the set that takes most.
    """
    amount = 0
    for group in problem.cook_groups:
        if kitchen.cook_group_id not in {group.cook_group_id, group.kitchen_of}:
            continue
        own = [s for s in problem.night_sets if s.cook_group_id == group.cook_group_id]
        named = dict(group.set_at).get(problem.start_place)
        of_set = [s.fuel_ml for s in own if named is None or s.set_id == named]
        amount += person_nights.get(group.cook_group_id, 0) * max(of_set, default=0)
    return share_up(amount=amount, percent=100 + problem.fuel_margin_percent)


def _at_hand(waiting: Waiting) -> Iterator[tuple[Item, int]]:
    """Items that stand there or are worn by somebody there, each with its count."""
    who = [person.person_id for person in waiting.people]
    for item in waiting.side.facts.problem.gear:
        if item.need.kind is not NeedKind.WORN:
            yield item, waiting.counts.get(item.unit_id, 0)
        else:
            yield item, worn_by(waiting.side.facts, item, who)


def aboard(facts: Facts, flown: FlownFlight) -> Iterator[tuple[Item, int]]:
    """Items on a flight, or worn by somebody on it, each with its count."""
    who = [person.person_id for person in flown.people]
    for item in facts.problem.gear:
        if item.need.kind is not NeedKind.WORN:
            yield item, flown.counts.get(item.unit_id, 0)
        else:
            yield item, worn_by(facts, item, who)
