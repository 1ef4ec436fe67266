"""Evacuation party: for whom the request asks about, who would go down and with what.

For each person named in the request and each night on which two parties can be made: those who
leave, those who stay, and the kit, food and fuel that go along. It judges nothing.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.facts import Facts
from solver.checker.queries.evacuation import Split, splits
from solver.checker.queries.telling import kg, nights_words
from solver.checker.queries.words import counted, listed
from solver.plan import Finding
from solver.problem import ReserveKind

RULE = "evacuation_party"


def evacuation_party(facts: Facts) -> Iterator[Finding]:
    """One finding for each named person, place and company in which that person would go."""
    if not facts.problem.evacuations:
        return
    same: dict[tuple[str, tuple[str, ...], tuple[str, ...]], list[Split]] = {}
    for split in splits(facts):
        if not split.missing:
            same.setdefault((split.place_id, split.leaving, split.staying), []).append(split)
    for (place_id, leaving, staying), alike in same.items():
        yield Finding(
            RULE,
            f"{leaving[0]} can be taken down {nights_words([(s.day, place_id) for s in alike])}: "
            f"{listed(leaving[1:])} may go along, {listed(staying)} stay; they take "
            f"{_kit(facts)}, {kg(max(s.load_g for s in alike))} with their own things and water; "
            f"{_stock(facts, place_id)}",
            len(leaving),
            "people",
            (("day", alike[0].day), ("place", place_id), ("person", leaving[0])),
        )


def _kit(facts: Facts) -> str:
    rules = facts.problem.rules
    nights = rules.whole("evacuation_nights")
    return (
        f"a rope, {counted(rules.whole('least_rescue_kits'), 'rescue kit')}, a shelter for all "
        "of them, a stove, a pot, a shovel, a medical kit, a communicator, navigation, "
        f"{counted(nights, 'night')} of food and fuel each, and at most "
        f"{rules.whole('evacuee_load_kg')} kg of it on the one who is ill"
    )


def _stock(facts: Facts, place_id: str) -> str:
    held = any(
        reserve.kind is ReserveKind.EVACUATION and reserve.place_id == place_id
        for reserve in facts.problem.reserves
    )
    if held:
        return f"an evacuation reserve is held at {place_id}"
    return (
        f"no evacuation reserve is held at {place_id}, so the food and fuel come out of what "
        "stands there"
    )
