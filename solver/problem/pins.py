"""Loads made by hand: units that a request puts into one pack or on one sled for one trip."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace


@dataclass(frozen=True, slots=True)
class Pin:
    """At least `count` units ride in a person's pack, or on the sled that the person hauls.

    The trip is the one that the person makes as that step of the day; both count from 1.
    """

    unit_id: str
    day: int
    step: int
    person_id: str
    on_sled: bool = False
    count: int = 1


def pins_moved(pins: Iterable[Pin], *, after: int, days: int) -> tuple[Pin, ...]:
    """The pins with those after a day so many days later: days were put in there, or taken out."""
    return tuple(replace(p, day=p.day + days) if p.day > after else p for p in pins)
