"""Why each full fuel container is taken along: one is left at home, and the rules are asked.

Units are told apart by their ways: which trips they ride, and the night on which they are opened.
For each way one unit is left out of the replayed plan, and the first rule that breaks is the
reason, with its amount. Only rules on what stands where are asked first, since these are the ones
that a container serves; all others only where none of these breaks.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import dataclass

from solver.checker.ledger.replay import Replay, without_one
from solver.checker.ledger.times import after_night
from solver.checker.ledger.unit_ways import UnitWay, unit_ways
from solver.plan import Finding
from solver.problem import Container

Judges = tuple[tuple[str, Callable[[Replay], Iterator[Finding]]], ...]

OF_FUEL = (
    "fuel_held",
    "reserves_held",
    "turn_round_stock_held",
    "fuel_survives_loss",
    "fuel_in_two_containers",
    "cache_loss_survived",
)
"""Rules that ask for fuel at a place, in the order in which a reason is looked for."""


@dataclass(frozen=True, slots=True)
class ContainerReason:
    """Why so many containers of a kind are taken.

    `opened` is the day and the place where they are opened, None for those that stay full.
    `without_one` is what breaks with one less, None where nothing does. `would_do` are lighter
    kinds of the same group's list of which one in its place would do; only what stays full can
    be replaced, since the order of the list settles what is opened.
    """

    container: Container
    count: int
    opened: tuple[int, str] | None
    without_one: Finding | None
    would_do: tuple[str, ...] = ()


def container_reasons(replay: Replay, judges: Judges) -> tuple[ContainerReason, ...]:
    """The reason for each container, in the order of the groups' lists and of the nights.

    `judges` are the hard rules that are asked, of a plan that breaks none of them. Of an
    expedition that is under way nothing is said: its containers were taken for the whole.
    """
    if replay.facts.problem.history is not None:
        return ()
    nights = {after_night(night): night.day for night in replay.facts.timeline.nights}
    reasons: list[ContainerReason] = []
    for group in replay.facts.problem.cook_groups:
        for kind in group.containers:
            ways = Counter(unit_ways(replay, kind.unit_id))
            told = Counter[tuple[tuple[int, str] | None, Finding | None, tuple[str, ...]]]()
            for way, count in ways.items():
                used = way.used
                opened = None if used is None else (nights[used.time], used.place_id)
                broken = _broken(without_one(replay, kind.unit_id, way.trips), judges)
                lighter = () if opened else _would_do(replay, kind, way, judges)
                told[opened, broken, lighter] += count
            reasons += [
                ContainerReason(kind, count, opened, broken, lighter)
                for (opened, broken, lighter), count in told.items()
            ]
    return tuple(reasons)


def _broken(spoilt: Replay, judges: Judges) -> Finding | None:
    """The first finding, of the rules of fuel before all others."""
    by_rule = dict(judges)
    order = dict.fromkeys((*OF_FUEL, *by_rule))
    asked = (by_rule[rule_id] for rule_id in order if rule_id in by_rule)
    return next((finding for judge in asked for finding in judge(spoilt)), None)


def _would_do(replay: Replay, kind: Container, way: UnitWay, judges: Judges) -> tuple[str, ...]:
    """Lighter kinds of the same list of which one in place of this one breaks nothing."""
    units = replay.facts.units
    group = replay.facts.problem.cook_group(kind.cook_group_id)
    lighter = (k for k in group.containers if units[k.unit_id].mass_g < units[kind.unit_id].mass_g)
    return tuple(
        other.container_id
        for other in lighter
        if _broken(without_one(replay, kind.unit_id, way.trips, instead=other.unit_id), judges)
        is None
    )
