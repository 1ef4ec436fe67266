"""The caches of a plan: what stands where nobody sleeps, since when, until when, under what label.

A cache lasts as long as the same things stand at a place on nights in a row on which nobody
sleeps there. When somebody takes of them or adds to them, another begins, for its label has
other dates. What is buried apart is listed apart: food, fuel, gear, waste.
"""

from collections.abc import Iterator
from typing import Any

from service.reports.tables import Cell, Table, table_of
from service.translate.read.requests import ReadRequest, read_plan_request
from service.translate.write.days import date_of
from solver.calculators.marking import cache_pole_count
from solver.problem import Place, Purpose, read_timeline

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


def caches_of(request: Document, outcome: Document) -> Document:
    """The caches of a solved outcome document, with the poles and labels that they take."""
    read = read_plan_request(request)
    timeline = read_timeline(read.problem)
    slept_at = {night.day: {place for _, place in night.sleeps_at} for night in timeline.nights}
    standing = {(e["day"], e["place"]): e["units"] for e in outcome["plan"]["stock"]}
    caches: list[Document] = []
    for place in read.problem.route.places:
        if place.place_id == read.problem.start_place:
            continue
        alone = {
            day: standing[day, place.place_id]
            for day, places in slept_at.items()
            if place.place_id not in places and standing.get((day, place.place_id))
        }
        caches.extend(_cache(read, place, days, alone[days[0]]) for days in _runs(alone))
    return {
        "poles_at_once": max(
            (
                sum(c["poles"] for c in caches if c["left_day"] <= day < c["pick_up_day"])
                for day in slept_at
            ),
            default=0,
        ),
        "labels": sum(cache["labels"] for cache in caches),
        "caches": caches,
    }


def caches_table(caches: list[Document]) -> Table:
    """The caches with one line a kind of unit."""
    shared = [name for name in COLUMNS if name in {*COLUMNS[:5], "poles", "labels", "label"}]
    rows: list[dict[str, Cell]] = [
        {name: cache[name] for name in shared}
        | {name: unit[name] for name in ("unit_id", "name", "count", "each_kg")}
        | {"class": word, "kg": round(unit["count"] * unit["each_kg"], 3)}
        for cache in caches
        for word in CLASSES
        for unit in cache[word]
    ]
    return table_of(COLUMNS, rows)


def _runs(alone: dict[int, list[Document]]) -> Iterator[list[int]]:
    """Nights in a row on which the same units stand."""
    run: list[int] = []
    for day, units in alone.items():
        if run and (run[-1] != day - 1 or alone[run[-1]] != units):
            yield run
            run = []
        run.append(day)
    if run:
        yield run


def _cache(read: ReadRequest, place: Place, days: list[int], units: list[Document]) -> Document:
    classes: dict[str, list[Document]] = {word: [] for word in CLASSES}
    for unit in units:
        classes[_class_of(read, unit["unit_id"])].append(unit)
    litres = sum(unit["count"] * unit["each_l"] for unit in units)
    poles = _poles(place, litres)
    left, pick_up = days[0], days[-1] + 1
    cache = {
        "place": place.place_id,
        "name": place.name or None,
        "left_day": left,
        "left_date": date_of(read.start_date, left),
        "pick_up_day": pick_up,
        "pick_up_date": date_of(read.start_date, pick_up),
        "nights": len(days),
        "total_kg": round(sum(unit["count"] * unit["each_kg"] for unit in units), 3),
        "total_l": round(litres, 3),
        **classes,
        "poles": poles,
        "poles_there": sum(u["count"] for u in units if u["unit_id"] in _pole_ids(read)),
        "labels": poles,
    }
    return {**cache, "label": _label(read, cache)}


def _class_of(read: ReadRequest, unit_id: str) -> str:
    if unit_id.startswith(("trash/", "waste/")):
        return "waste"
    if any(night_set.unit_id == unit_id for night_set in read.problem.night_sets):
        return "food"
    containers = [c.unit_id for group in read.problem.cook_groups for c in group.containers]
    if any(unit_id == c or unit_id.startswith((f"{c}/open-", f"{c}/empty-")) for c in containers):
        return "fuel"
    return "gear"


def _pole_ids(read: ReadRequest) -> set[str]:
    """Units that the request lists as marker poles or wands."""
    marks = (Purpose.MARKER_POLE, Purpose.WAND)
    return {item.unit_id for item in read.problem.gear if item.purpose in marks}


def _poles(place: Place, litres: float) -> int:
    """Poles told in the request, at least one, else what marks a pit of that volume [1]."""
    if place.cache is not None and place.cache.poles is not None:
        return max(1, place.cache.poles)
    # A cache of things without volume is still a cache: a litre stands for it.
    return cache_pole_count(stock_volume_l=min(max(litres, 1.0), LONGEST_POLE_TABLE_L))


def _label(read: ReadRequest, cache: Document) -> str:
    """What to write on a label; leader, contact and permit are the party's own to add."""
    held = [word for word in CLASSES if cache[word]]
    return " | ".join(
        (
            read.reference or read.title or "party: ____",
            f"left {cache['left_date'] or 'day ' + str(cache['left_day'])}",
            f"pick-up {cache['pick_up_date'] or 'day ' + str(cache['pick_up_day'])}",
            ", ".join(held),
            f"fuel containers: {'yes' if cache['fuel'] else 'no'}",
            "leader, contact and permit: ____",
        )
    )
