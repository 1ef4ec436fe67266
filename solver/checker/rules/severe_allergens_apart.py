"""Severe allergens apart: bags with an allergen stay away from a group that reacts to it.

For each allergen that somebody reacts to, all who eat from that person's kitchen are kept clean
of it.
Bags of a set that contains it in the packs and sleds of these people = 0, sacks with such a set's
packaging likewise, and bags of that kitchen in those of anybody else = 0.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.replay import Replay
from solver.checker.queries.telling import carrier_where, trip_where, trip_words
from solver.plan import Finding
from solver.problem import NightSet, Problem

RULE = "severe_allergens_apart"


def severe_allergens_apart(replay: Replay) -> Iterator[Finding]:
    """Packs and sleds in which food meets traces of what somebody severely reacts to."""
    problem = replay.facts.problem
    clean_groups = _clean_groups(problem)
    if not clean_groups:
        return
    group_of = {p.person_id: problem.kitchen_id(p.cook_group_id) for p in problem.everybody}
    kitchen_of = {g.cook_group_id: g.kitchen_id for g in problem.cook_groups}
    sets = {night_set.unit_id: night_set for night_set in problem.night_sets}
    for record in replay.records:
        for carrier in record.carriers:
            group_id = group_of.get(carrier.person_id)
            for unit_id, count in carrier.counts.items():
                inside = replay.facts.units[unit_id].allergens
                near = sorted(a for a in inside if group_id in clean_groups.get(a, ()))
                if unit_id in sets:
                    night_set = sets[unit_id]
                    packed_by = kitchen_of[night_set.cook_group_id]
                    near = _near(night_set, packed_by, group_id, clean_groups)
                if near:
                    yield Finding(
                        RULE,
                        f"{carrier.name} on {trip_words(record.trip)}: {count} {unit_id} in it, "
                        f"where {' and '.join(near)} would come near people who react severely",
                        count,
                        "bags",
                        (*trip_where(record.trip), *carrier_where(carrier), ("unit", unit_id)),
                    )


def _near(
    night_set: NightSet,
    packed_by: str,
    group_id: str | None,
    clean_groups: dict[str, frozenset[str]],
) -> list[str]:
    """The allergens for which a bag is with people that it must not be with."""
    return sorted(
        allergen
        for allergen, groups in clean_groups.items()
        if (allergen in night_set.contains if group_id in groups else packed_by in groups)
    )


def _clean_groups(problem: Problem) -> dict[str, frozenset[str]]:
    """For each allergen that somebody reacts to, the kitchens that are kept clean of it."""
    clean: dict[str, frozenset[str]] = {}
    for person in problem.roster:
        for allergen in person.reacts_to:
            clean[allergen] = clean.get(allergen, frozenset()) | {
                problem.kitchen_id(person.cook_group_id)
            }
    return clean
