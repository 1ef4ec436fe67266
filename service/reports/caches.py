"""The caches of a plan: what stands where nobody sleeps, since when, until when, under what label.

A cache lasts as long as the same things stand at a place on nights in a row on which nobody
sleeps there. When somebody takes of them or adds to them, another begins, for its label has
other dates. What is buried apart is listed apart: food, fuel, gear, waste.
"""

from collections.abc import Iterator
from typing import Any

from api_schema.cache_answer import CacheAnswer
from api_schema.load_answer import StowedAnswer
from service.reports.tables import Cell, Table, table_of
from service.translate.read.requests import ReadRequest, read_plan_request
from service.translate.write.days import date_of
from solver.calculators.marking import cache_pole_count
from solver.problem import Place, Purpose

Document = dict[str, Any]

CLASSES = ("food", "fuel", "gear", "waste")

COLUMNS = (
    "place",
    "left_day",
    "left_date",
    "pick_up_day",
    "pick_up_date",
    "class",
    "unit_id",
    "name",
    "count",
    "each_kg",
    "kg",
    "poles",
    "labels",
    "label",
)

LONGEST_POLE_TABLE_L = 5000.0
"""Up to which volume the count of poles by volume is made; a larger cache takes that count."""


def caches_of(request: Document, outcome: Document) -> list[CacheAnswer]:
    """The caches of a solved outcome document, with the poles and labels that they take."""
    read = read_plan_request(request)
    nights = read.timeline.nights
    slept_at = {night.day: {place for _, place in night.sleeps_at} for night in nights}
    standing = {
        (entry["day"], entry["place"]): [StowedAnswer(**unit) for unit in entry["units"]]
        for entry in outcome["plan"]["stock"]
    }
    caches: list[CacheAnswer] = []
    for place in read.problem.route.places:
        if place.place_id == read.problem.start_place:
            continue
        alone = {
            day: standing[day, place.place_id]
            for day, places in slept_at.items()
            if place.place_id not in places and standing.get((day, place.place_id))
        }
        caches.extend(_cache(read, place, days, alone[days[0]]) for days in _runs(alone))
    return caches


def poles_at_once(caches: list[CacheAnswer]) -> int:
    """Poles that stand on the night that needs most, which is one on which a cache begins."""
    return max(
        (
            sum(c.poles for c in caches if c.left_day <= begin.left_day < c.pick_up_day)
            for begin in caches
        ),
        default=0,
    )


def caches_table(caches: list[CacheAnswer]) -> Table:
    """The caches with one line a kind of unit."""
    shared = {*COLUMNS[:5], "poles", "labels", "label"}
    rows: list[dict[str, Cell]] = [
        cache.model_dump(mode="json", include=shared)
        | unit.model_dump(include={"unit_id", "name", "count", "each_kg"})
        | {"class": word, "kg": round(unit.count * unit.each_kg, 3)}
        for cache in caches
        for word, units in held_apart(cache)
        for unit in units
    ]
    return table_of(COLUMNS, rows)


def held_apart(cache: CacheAnswer) -> Iterator[tuple[str, list[StowedAnswer]]]:
    """What is buried apart: each class with its units."""
    return zip(CLASSES, (cache.food, cache.fuel, cache.gear, cache.waste), strict=True)


def _runs(alone: dict[int, list[StowedAnswer]]) -> Iterator[list[int]]:
    """Nights in a row on which the same units stand."""
    run: list[int] = []
    for day, units in alone.items():
        if run and (run[-1] != day - 1 or alone[run[-1]] != units):
            yield run
            run = []
        run.append(day)
    if run:
        yield run


def _cache(
    read: ReadRequest, place: Place, days: list[int], units: list[StowedAnswer]
) -> CacheAnswer:
    classes: dict[str, list[StowedAnswer]] = {word: [] for word in CLASSES}
    for unit in units:
        classes[_class_of(read, unit.unit_id)].append(unit)
    litres = sum(unit.count * unit.each_l for unit in units)
    poles = _poles(place, litres)
    left, pick_up = days[0], days[-1] + 1
    return CacheAnswer(
        place=place.place_id,
        name=place.name or None,
        left_day=left,
        left_date=date_of(read.start_date, left),
        pick_up_day=pick_up,
        pick_up_date=date_of(read.start_date, pick_up),
        nights=len(days),
        total_kg=round(sum(unit.count * unit.each_kg for unit in units), 3),
        total_l=round(litres, 3),
        food=classes["food"],
        fuel=classes["fuel"],
        gear=classes["gear"],
        waste=classes["waste"],
        poles=poles,
        poles_there=sum(u.count for u in units if u.unit_id in _pole_ids(read)),
        labels=poles,
        label=_label(read, left, pick_up, [word for word in CLASSES if classes[word]]),
    )


def _class_of(read: ReadRequest, unit_id: str) -> str:
    if unit_id.startswith(("trash/", "human-waste/")):
        return "waste"
    if any(night_set.unit_id == unit_id for night_set in read.problem.night_sets):
        return "food"
    containers = [c.unit_id for group in read.problem.cook_groups for c in group.containers]
    if any(i.unit_id == unit_id and i.purpose is Purpose.FUEL for i in read.problem.gear):
        return "fuel"
    if any(unit_id == c or unit_id.startswith((f"{c}/open-", f"{c}/empty-")) for c in containers):
        return "fuel"
    return "gear"


def _pole_ids(read: ReadRequest) -> set[str]:
    """Units that the request lists as marker poles or wands."""
    marks = (Purpose.MARKER_POLE, Purpose.WAND)
    return {item.unit_id for item in read.problem.gear if item.purpose in marks}


def _poles(place: Place, litres: float) -> int:
    """Poles given in the request, at least one, else what marks a pit of that volume [1]."""
    if place.cache is not None and place.cache.poles is not None:
        return max(1, place.cache.poles)
    # A cache of things without volume is still a cache: a litre stands for it.
    return cache_pole_count(stock_volume_l=min(max(litres, 1.0), LONGEST_POLE_TABLE_L))


def _label(read: ReadRequest, left: int, pick_up: int, held: list[str]) -> str:
    """What to write on a label; leader, contact and permit are the party's own to add."""

    def when(day: int) -> str:
        date = date_of(read.start_date, day)
        return f"day {day}" if date is None else date.isoformat()

    return " | ".join(
        (
            read.reference or read.title or "party: ____",
            f"left {when(left)}",
            f"pick-up {when(pick_up)}",
            ", ".join(held),
            f"fuel containers: {'yes' if 'fuel' in held else 'no'}",
            "leader, contact and permit: ____",
        )
    )
