"""All sheets of a plan in the order in which they are printed."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from types import MappingProxyType
from typing import Literal

from service.pages.assumptions import assumptions, cautions
from service.pages.blocks import Section
from service.pages.camps import cache_pages, camp_pages, waiting
from service.pages.carriers import bag_index, descent, keepers, person_pages
from service.pages.cover import cover
from service.pages.day_pages import day_pages
from service.pages.drawings import drawings
from service.pages.facts import PlanFacts
from service.pages.history import history
from service.pages.render import PaperName, drawing_width
from service.pages.risks import flight_pages, losses

SheetName = Literal[
    "cover",
    "pictures",
    "days",
    "people",
    "camps",
    "keepers",
    "caches",
    "bags",
    "flights",
    "descent",
    "losses",
    "waiting",
    "history",
    "assumptions",
    "cautions",
]

_SHEETS: Mapping[str, Callable[[PlanFacts], list[Section]]] = MappingProxyType(
    {
        "cover": lambda facts: [cover(facts)],
        "days": day_pages,
        "people": person_pages,
        "camps": camp_pages,
        "keepers": lambda facts: [keepers(facts)],
        "caches": cache_pages,
        "bags": lambda facts: [bag_index(facts)],
        "flights": flight_pages,
        "descent": lambda facts: [descent(facts)],
        "losses": lambda facts: [losses(facts)],
        "waiting": lambda facts: [waiting(facts)],
        "history": lambda facts: [history(facts)],
        "assumptions": lambda facts: [assumptions(facts)],
        "cautions": lambda facts: [cautions(facts)],
    }
)
_ORDER: tuple[SheetName, ...] = SheetName.__args__  # type: ignore[attr-defined]


def sections_of(
    facts: PlanFacts, *, paper: PaperName, only: frozenset[str] | None = None
) -> list[Section]:
    """The sections of the sheets that are asked for, or of all."""
    made: list[Section] = []
    for name in _ORDER:
        if only is not None and name not in only:
            continue
        if name == "pictures":
            made.append(drawings(facts, width=drawing_width(paper)))
        else:
            made += _SHEETS[name](facts)
    return made
