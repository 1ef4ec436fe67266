"""The last sheets: what was assumed, and every caution in full."""

from __future__ import annotations

from service.pages.blocks import Lines, Section, table
from service.pages.facts import PlanFacts


def assumptions(facts: PlanFacts) -> Section:
    """Values that nobody gave, each once with how often it was taken, and its source."""
    counted: dict[tuple[str, str, str], int] = {}
    for one in facts.outcome["assumptions"]:
        key = (one["what"], one["value"], one["source_status"])
        counted[key] = counted.get(key, 0) + 1
    rows = [(what, value, str(times), source) for (what, value, source), times in counted.items()]
    columns = ("What was assumed", "Value", "#Times", "Source", "_Known better")
    return Section("assumptions", "Assumptions", (table("", columns, rows),))


def cautions(facts: PlanFacts) -> Section:
    """All cautions of the plan in full."""
    texts = tuple(caution["text"] for caution in facts.outcome["cautions"])
    return Section("cautions", "Cautions in full", (Lines(texts),))
