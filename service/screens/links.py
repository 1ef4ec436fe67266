"""Where the views of a plan are: to print, as files, as data."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Link:
    """An address and what to call it."""

    address: str
    words: str


_SHEETS = (
    ("days", "Days"),
    ("people", "People"),
    ("camps", "Camps"),
    ("keepers", "Keepers"),
    ("caches", "Caches and labels"),
    ("bags", "Bags"),
    ("flights", "Flights"),
    ("descent", "Descent"),
    ("losses", "Losses and evacuation"),
    ("waiting", "Waiting and turning round"),
    ("history", "History of re-plans"),
    ("assumptions", "Assumptions"),
)
_FILES = (
    ("workbook", "Workbook (XLSX)"),
    ("load-sheet.csv", "Load sheet (CSV)"),
    ("packing-list", "Packing list (CSV)"),
    ("purchases.csv", "Purchases (CSV)"),
    ("bags.csv", "Bag labels (CSV)"),
    ("gear-list", "Gear list (CSV)"),
    ("calendar", "Calendar (iCalendar)"),
)
_ASK = (
    ("/limits-that-bind?seconds=20", "What binds, and what a step is worth (takes 20 s)"),
    ("/purchases", "Purchases, and why each container is taken"),
    ("/bags", "Bags, and where each waits"),
    ("?format=html#weakest", "Loads of the weakest"),
    ("?format=html#containers", "Why each fuel container is taken"),
)
"""What explains a plan; the API page has a form for stress tests, which are asked by POST."""
_STRESS = Link("/docs#/stress%20tests/create_stress_test", "Stress tests: ask on the API page")
_DATA = (
    ("?format=json", "Plan"),
    ("/request", "Request"),
    ("/loads", "Loads"),
    ("/stock", "Stock"),
    ("/load-sheet", "Load sheet"),
    ("/caches", "Caches"),
    ("/manifest", "Manifest"),
    ("/cautions", "Cautions"),
    ("/history", "History"),
    ("/check", "Check under the rules of today"),
)


@dataclass(frozen=True, slots=True)
class LinkGroup:
    """Links under one heading."""

    title: str
    links: tuple[Link, ...]


def links_of(
    plan_id: str, *, solved: bool, can_print: bool, from_day_1: bool = True
) -> tuple[LinkGroup, ...]:
    """The links that lead somewhere for a plan; one without a plan has its data only.

    Of a re-plan nobody asks what begins with day 1.
    """
    at = f"/v1/plans/{plan_id}"
    if not solved:
        return (_group("Data (JSON)", at, [_DATA[0], _DATA[1], _DATA[8]]),)
    papers = [("A4", ""), ("A5", "?paper=a5"), ("Letter, US units", "?paper=letter&units=us")]
    whole = [Link(f"{at}/pages{query}", f"All sheets, {name}") for name, query in papers]
    if can_print:
        whole.append(Link(f"{at}/pages?format=pdf", "All sheets as PDF"))
    sheets = [Link(f"{at}/pages?sheet={name}", words) for name, words in _SHEETS]
    why = [Link(f"{at}{end}", words) for end, words in (_ASK if from_day_1 else _ASK[1:])]
    return (
        LinkGroup("Print", (*whole, *sheets)),
        LinkGroup("Why", (*why, _STRESS) if from_day_1 else tuple(why)),
        _group("Files", f"{at}/", _FILES),
        _group("Data (JSON)", at, _DATA),
    )


def _group(title: str, at: str, ends: Sequence[tuple[str, str]]) -> LinkGroup:
    return LinkGroup(title, tuple(Link(f"{at}{end}", words) for end, words in ends))
