"""Food stands frost: what freezing spoils is kept where no night is colder than it stands.

For each night set at each place where it is eaten or held, and each item at each place where its
people sleep with it or where it belongs, of which `spoils_below_c` and the night's temperature
are given: temperature >= spoils_below_c. Worn items are warm on the body. The amount is in
degrees, rounded up.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from solver.checker.ledger.facts import Facts
from solver.checker.queries.menus import sets_used
from solver.plan import Finding
from solver.problem import Item, NeedKind, Place

RULE = "food_stands_frost"


def food_stands_frost(facts: Facts) -> Iterator[Finding]:
    """Food and things at places where the night would spoil or burst them."""
    for use in sets_used(facts):
        yield from _spoilt(use.words, use.night_set.spoils_below_c, use.place, use.where)
    for item in facts.problem.gear:
        if item.spoils_below_c is None or item.need.kind is NeedKind.WORN:
            continue
        for place_id in _kept_at(facts, item):
            yield from _spoilt(
                f"{item.unit_id} at {place_id}",
                item.spoils_below_c,
                facts.problem.route.place(place_id),
                (("item", item.unit_id), ("place", place_id)),
            )


def _kept_at(facts: Facts, item: Item) -> tuple[str, ...]:
    """Where an item stands by night, as far as its need determines that."""
    needs = facts.needs
    if item.need.kind is NeedKind.AT_PLACE:
        reached = needs.window(item) is not None
        return (item.need.up_to,) if reached and item.need.up_to is not None else ()
    nights = [needs.night_place(item, night) for night in facts.timeline.nights]
    return tuple(dict.fromkeys(place for place in nights if place is not None))


def _spoilt(
    words: str, limit_c: float | None, place: Place, where: tuple[tuple[str, str | int], ...]
) -> Iterator[Finding]:
    night_c = place.night_temperature_c
    if limit_c is None or night_c is None or night_c >= limit_c:
        return
    yield Finding(
        RULE,
        f"{words} spoils or bursts below {limit_c:g} degC, and nights there bring {night_c:g} degC",
        max(1, math.ceil(limit_c - night_c - 1e-6)),
        "degC",
        where,
        ("take something that stands the frost", f"use it up below {place.place_id}"),
    )
