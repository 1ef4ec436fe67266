"""What a re-plan changes against the plan that was followed, by day and person."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from service.pages.facts import Json, PlanFacts, named, units_of


@dataclass(frozen=True, slots=True)
class ChangeLine:
    """What one person newly has on one trip, and no longer has, in words."""

    day: int
    way: str
    person: str
    more: str
    fewer: str


def change_lines(facts: PlanFacts) -> Iterator[ChangeLine]:
    """One line for each load that changes; none where nothing was planned on the way."""
    names = {
        unit["unit_id"]: unit["name"]
        for trip in facts.plan["trips"]
        for load in trip["loads"]
        for unit in units_of(load)
    }
    rest = facts.outcome["rest"] or {}
    for change in rest.get("changes", ()):
        yield ChangeLine(
            day=change["day"],
            way=f"{facts.place(change['from'])} – {facts.place(change['to'])}",
            person=facts.person(change["person_id"]),
            more=_words(change["more"], names),
            fewer=_words(change["fewer"], names),
        )


def _words(units: list[Json], names: dict[str, str | None]) -> str:
    return ", ".join(named(unit | {"name": names.get(unit["unit_id"])}) for unit in units) or "–"
