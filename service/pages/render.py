"""The sections as one HTML file with its style inside, which needs nothing else to be printed."""

from __future__ import annotations

import base64
import hashlib
from collections.abc import Sequence
from dataclasses import dataclass
from importlib.resources import files
from typing import Literal

from jinja2 import Environment, PackageLoader, StrictUndefined
from markupsafe import Markup

from service.pages.blocks import Section
from service.pages.facts import PlanFacts

PaperName = Literal["a4", "a5", "letter"]
_SIZES = {"a4": "A4", "a5": "A5", "letter": "letter"}
_BODY_MM = {"a4": 188, "a5": 126, "letter": 194}
"""The width of a page without its margins [mm]."""
_UNITS_PER_MM = 3.78

_ENVIRONMENT = Environment(
    loader=PackageLoader("service.pages"),
    autoescape=True,
    undefined=StrictUndefined,
    trim_blocks=True,
    lstrip_blocks=True,
)
_STYLE = (files("service.pages") / "templates" / "print.css").read_text(encoding="utf-8")


@dataclass(frozen=True, slots=True)
class RenderedPages:
    """A whole HTML file, and the policy under which a browser may show it."""

    html: bytes
    policy: str


@dataclass(frozen=True, slots=True)
class Stamp:
    """What every page says of itself; the short form is the service's and needs no quoting."""

    title: str
    short: str
    long: str
    superseded: str


def drawing_width(paper: PaperName) -> float:
    """How wide to draw for a paper, so that a unit is about a pixel and text is over 9 pt."""
    return _BODY_MM[paper] * _UNITS_PER_MM


def render_pages(facts: PlanFacts, sections: Sequence[Section], paper: PaperName) -> RenderedPages:
    """The sheets of a plan as one file, with plan, version and date on every page."""
    stamp = Stamp(
        facts.title,
        f"{facts.plan_id} v{facts.version}, {facts.made_at}",
        f"Plan {facts.plan_id}, version {facts.version}, made {facts.made_at}",
        _whether_it_holds(facts),
    )
    return render_sheets(stamp, sections, paper)


def _whether_it_holds(facts: PlanFacts) -> str:
    if facts.superseded_by is not None:
        return f"SUPERSEDED by plan {facts.superseded_by}: do not use this one."
    if facts.what_if:
        return "WHAT IF: made only to be looked at. Do not follow it before it is released."
    return "Superseded if there is a plan of a later version or date."


def render_sheets(stamp: Stamp, sections: Sequence[Section], paper: PaperName) -> RenderedPages:
    """The file. Every page has the short stamp at its foot, and its number of how many."""
    short = stamp.short
    css = (
        _STYLE.replace("PAPER", _SIZES[paper])
        .replace("WIDTH", f"{_BODY_MM[paper]}mm")
        .replace("CELL", "0.7" if paper == "a5" else "1.2")
        # Only the id, a number and a time stand in it, so that it needs no quoting.
        .replace("STAMP", short)
    )
    html = _ENVIRONMENT.get_template("plan.html.j2").render(
        title=stamp.title,
        # The style is ours, and its quotes must not become entities.
        css=Markup(css),  # noqa: S704
        stamp=stamp.long,
        short_stamp=short,
        superseded=stamp.superseded,
        sections=sections,
    )
    digest = base64.b64encode(hashlib.sha256(css.encode()).digest()).decode()
    policy = (
        f"default-src 'none'; style-src 'sha256-{digest}'; img-src data:; base-uri 'none'; "
        "form-action 'none'; frame-ancestors 'none'"
    )
    return RenderedPages(html.encode(), policy)
