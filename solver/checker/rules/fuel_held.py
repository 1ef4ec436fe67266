"""Fuel held: what a cook group burns from stands where it sleeps.

For each night: full containers of a kind at the place >= containers of it opened that night,
and the container opened on a night before is at the place.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.fuel import Burning
from solver.checker.ledger.replay import Replay
from solver.checker.ledger.times import after_night
from solver.checker.ledger.units import UnitKind
from solver.checker.queries.telling import litres, runs
from solver.plan import Finding
from solver.problem import CookGroup
from solver.quantities import units_up

RULE = "fuel_held"


def fuel_held(replay: Replay) -> Iterator[Finding]:
    """Containers to open, or open ones, that are not where their cook group sleeps."""
    for group in replay.facts.problem.cook_groups:
        burning = replay.facts.burnings[group.cook_group_id]
        yield from _to_open(replay, group)
        yield from _opened_before(replay, group, burning)
        yield from _none_left(group, burning)


def _to_open(replay: Replay, group: CookGroup) -> Iterator[Finding]:
    nights = {after_night(night): night.day for night in replay.facts.timeline.nights}
    for container in group.containers:
        # Every opening is an event of its own, so those of one night are put together.
        missing: dict[tuple[int, str], int] = {}
        for shortage in replay.courses[container.unit_id].shortages:
            if shortage.event.leg is None:
                at = nights[shortage.event.time], shortage.event.place_id
                missing[at] = missing.get(at, 0) + shortage.missing
        for (day, place_id), amount in missing.items():
            yield Finding(
                RULE,
                f"cook group {group.cook_group_id} on the night of day {day} at {place_id}: "
                f"{amount} full {container.container_id} too few to open",
                amount,
                "containers",
                (("day", day), ("place", place_id), ("unit", container.unit_id)),
            )


def _opened_before(replay: Replay, group: CookGroup, burning: Burning) -> Iterator[Finding]:
    sleeps_at = {
        meal.day: meal.place_id
        for meal in replay.facts.meals
        if meal.cook_group_id == group.cook_group_id
    }
    for opened in burning.opened:
        course = replay.courses.get(opened.open_id)
        if course is None or replay.facts.units[opened.open_id].kind is not UnitKind.OPEN:
            continue
        last_day = opened.emptied_day or max(sleeps_at)
        missing = [
            (day, 1 - course.before(after_night(replay.facts.night(day))).get(place_id, 0))
            for day, place_id in sleeps_at.items()
            if opened.opened_day < day <= last_day
        ]
        for run in runs(missing):
            place_id = sleeps_at[run.first_day]
            yield Finding(
                RULE,
                f"cook group {group.cook_group_id} on the {run.words}: the open "
                f"{opened.open_id} is not at {place_id}, where they sleep",
                run.amount,
                "containers",
                (*run.where, ("place", place_id), ("unit", opened.open_id)),
            )


def _none_left(group: CookGroup, burning: Burning) -> Iterator[Finding]:
    for lacking in burning.lacking:
        content_ml = group.containers[-1].content_ml if group.containers else 0
        amount = units_up(amount=lacking.missing_ml, per_unit=content_ml) if content_ml else 1
        yield Finding(
            RULE,
            f"cook group {group.cook_group_id} on the night of day {lacking.day} at "
            f"{lacking.place_id}: all containers are used up, {litres(lacking.missing_ml)} of "
            "fuel too little",
            amount,
            "containers",
            (("day", lacking.day), ("place", lacking.place_id)),
        )
