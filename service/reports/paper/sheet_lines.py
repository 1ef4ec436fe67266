"""The load sheet in lines of text: keepers, everybody's things by name, hand-overs, kitchens."""

from __future__ import annotations

import re
import textwrap
from collections.abc import Iterator
from typing import Any

from service.reports.paper.carrying_days import Rides
from service.reports.paper.hand_overs import HandOver, hand_overs, together
from service.reports.paper.keepers import Keeper, keepers_of
from service.reports.paper.kitchens import Kitchen, KitchenThing, Rows, kitchens
from service.reports.paper.nights import left_alone, people_of, sleepers
from service.reports.paper.origins import origin_words
from service.reports.paper.own_kit import OwnKit
from service.reports.paper.things import Things, in_use, night_sets, stowed

Document = dict[str, Any]

WIDTH = 100
_HELD = "\u00a0"
"""A space at which no line breaks, while lines are made."""


class Sheet:
    """Lines about one solved outcome, each at most 100 columns wide."""

    def __init__(self, outcome: Document) -> None:
        self._plan = outcome["plan"]
        self._things = Things(self._plan)
        self._own = OwnKit(self._plan)
        self._keepers = keepers_of(self._plan)
        self._rides = Rides(self._plan)
        self._given = hand_overs(outcome)
        self._kitchens = kitchens(self._plan)
        self._alone = tuple(left_alone(self._plan))

    def keepers(self) -> Iterator[str]:
        """Who keeps each single thing, person by person, and who else has it when."""
        kept: dict[str, list[Keeper]] = {}
        for keeper in self._keepers:
            if keeper.count == 1:
                kept.setdefault(keeper.person_id, []).append(keeper)
        for person_id, things in kept.items():
            yield f"  {person_id}"
            for keeper in things:
                others = self._rides.others(keeper)
                also = f". Others: {others}" if others else ""
                yield from _wrapped(f"    {self._things.label(keeper.unit_id)}{also}")

    def bundles(self) -> Iterator[str]:
        """Small alike things, each kind with who carries how many of them when."""
        for keeper in self._keepers:
            if keeper.count > 1:
                what = self._things.counted(keeper.unit_id, keeper.count)
                yield from _wrapped(f"  {what}: {self._rides.everybody(keeper.unit_id)}")

    def own_kit(self) -> Iterator[str]:
        """What everybody has in their own pack on every trip, or in use, and its mass."""
        for person_id, kg, labels in self._own.listed(self._things):
            yield from _wrapped(f"  {person_id}, {kg:.1f} kg: {labels}")

    def load(self, load: Document) -> Iterator[str]:
        """What one person has on a trip, by name; what is in use stands apart."""
        own, rest = self._own.split(load)
        water = f"water {load['water_kg']:g} kg, lunch {load['lunch_kg']:g} kg"
        whose = load["person_id"]
        pack = "; ".join(filter(None, (own, self._things.listed(rest, whose), water)))
        yield from _wrapped(f"      pack: {pack}")
        if load["sled_id"] is not None:
            sled = self._things.listed(stowed(load["sled"]), whose) or "nothing"
            yield from _wrapped(f"      {load['sled_id']}: {sled}")
        if used := in_use(load):
            yield from _wrapped(f"      in use, in no load: {self._things.listed(used, whose)}")

    def changes(self, day: int, step: int) -> Iterator[str]:
        """What changes hands before a trip of a day, where, and why."""
        now = tuple(one for one in self._given if (one.day, one.step) == (day, step))
        for one, counts in together(now):
            yield from _wrapped(f"    {_where(one)}: {self._change(one, counts)}")

    def _change(self, one: HandOver, counts: dict[str, int]) -> str:
        things = self._things.listed(counts)
        return f"{one.giver} to {one.taker}: {things} ({one.reason})"

    def night(self, day: int) -> Iterator[str]:
        """Who sleeps where tonight, the kitchens, and what is left where nobody sleeps."""
        everybody = people_of(self._plan)
        for place, who in sleepers(self._plan, day).items():
            names = "everybody" if who == everybody else ", ".join(who)
            yield from _wrapped(f"  Sleep at {place}: {names}")
            here = [k for k in self._kitchens if (k.day, k.place) == (day, place)]
            yield from self._rows(here[0].of_all, day)
            for kitchen in here:
                yield from self._kitchen(kitchen)
        yield from self._left(day)

    def _kitchen(self, kitchen: Kitchen) -> Iterator[str]:
        yield from _wrapped(
            f"  Kitchen tonight at {kitchen.place}, cook group {kitchen.cook_group}: "
            f"{night_sets(kitchen.night_sets)}, {kitchen.fuel_ml / 1000:.2f} L of fuel"
        )
        yield from self._rows(kitchen.own, kitchen.day)

    def _rows(self, rows: Rows, day: int) -> Iterator[str]:
        for word, found in rows:
            said = "; ".join(self._thing(thing, day) for thing in found)
            yield from _wrapped(f"    {word}: {said or 'none here'}")

    def _left(self, day: int) -> Iterator[str]:
        """What is left alone tonight; where it is the same as before, since when."""
        alone = [one for one in self._alone if one.day == day]
        for one in alone:
            if one.is_new:
                yield f"  Left alone at {one.place}"
                for part in one.parts(self._things):
                    yield from _wrapped(f"    {part}")
        if old := [f"{one.place} as on day {one.since}" for one in alone if not one.is_new]:
            yield from _wrapped(f"  Left alone still: {', '.join(old)}")

    def _thing(self, thing: KitchenThing, day: int) -> str:
        what = self._things.counted(thing.unit_id, thing.count)
        return origin_words(what, thing.count, thing.lots, tonight=day)


def _where(one: HandOver) -> str:
    """Where something changes hands, and how long it lay there."""
    if one.since_day == one.day:
        return f"Changes hands at {one.place}, on the way"
    return f"Changes hands at {one.place}, last carried on day {one.since_day}"


def repeats(night: Document, before: Document | None) -> bool:
    """Whether the stock of a place on a night is the same as on the night before."""
    return before is not None and (night["units"], night["cook_groups"]) == (
        before["units"],
        before["cook_groups"],
    )


def _wrapped(text: str) -> list[str]:
    """A text in lines that hang under its first, however far it is set in; `2 x` stays whole."""
    indent = " " * (len(text) - len(text.lstrip()))
    whole = re.sub(r"(\d) x (?=\S)", f"\\1{_HELD}x{_HELD}", text)
    lines = textwrap.wrap(whole, WIDTH, subsequent_indent=f"{indent}  ")
    return [line.replace(_HELD, " ") for line in lines]
