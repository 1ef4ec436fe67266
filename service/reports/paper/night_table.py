"""The nights of a plan as a table: the things of each kitchen, and what is left alone."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from service.reports.paper.kitchens import KitchenThing, Rows, kitchens
from service.reports.paper.nights import left_alone
from service.reports.paper.origins import origin_words
from service.reports.paper.things import Things
from service.reports.tables import Cell, Table, table_of

Document = dict[str, Any]

COLUMNS = ("day", "place", "cook_group", "what", "thing", "count", "brought")
"""`cook_group` is empty for what all share and for what is left alone."""


def night_table(outcome: Document) -> Table:
    """Each night's stoves, pots, shelters, food and fuel with who brought them, and what is alone.

    What is left alone has a line on the first night on which it stands there so.
    """
    return table_of(COLUMNS, list(_rows(outcome["plan"])))


def _rows(plan: Document) -> Iterator[dict[str, Cell]]:
    things = Things(plan)
    seen: set[tuple[int, str]] = set()
    for kitchen in kitchens(plan):
        where: dict[str, Cell] = {"day": kitchen.day, "place": kitchen.place}
        if (kitchen.day, kitchen.place) not in seen:
            seen.add((kitchen.day, kitchen.place))
            yield from _of(things, kitchen.of_all, where | {"cook_group": None}, kitchen.day)
        own = where | {"cook_group": kitchen.cook_group}
        yield from _of(things, kitchen.own, own, kitchen.day)
    for one in left_alone(plan):
        if one.is_new:
            for unit_id, count in one.counts.items():
                yield {
                    "day": one.day,
                    "place": one.place,
                    "cook_group": None,
                    "what": "left alone",
                    "thing": things.label(unit_id),
                    "count": count,
                    "brought": None,
                }


def _of(
    things: Things, rows: Rows, where: dict[str, Cell], tonight: int
) -> Iterator[dict[str, Cell]]:
    for word, found in rows:
        for one in found:
            yield where | {
                "what": word,
                "thing": things.label(one.unit_id),
                "count": one.count,
                "brought": _brought(one, tonight),
            }


def _brought(one: KitchenThing, tonight: int) -> str | None:
    """Who brought it when, without the thing itself; nothing for what was there before."""
    words = origin_words("", one.count, one.lots, tonight=tonight)
    return words.lstrip(",: ").removeprefix("brought ") or None
