"""What the screen of a solved plan shows: figures, days, loads, pictures."""

from __future__ import annotations

from dataclasses import dataclass

from service.pages.cover import first_cautions
from service.pages.drawings import pictures_of
from service.pages.facts import Json, PlanFacts
from service.pictures.svg import Picture
from service.screens.changed_loads import ChangeLine, change_lines
from service.screens.drawn_for import NARROW, WIDE, for_width
from service.screens.load_grid import LoadGrid, load_grid
from service.screens.words import percent


@dataclass(frozen=True, slots=True)
class Figure:
    """A number with what it is, and a remark on it."""

    name: str
    value: str
    remark: str


@dataclass(frozen=True, slots=True)
class DayLine:
    """A day of the calendar in one line."""

    day: int
    date: str
    kind: str
    way: str
    heaviest: str


@dataclass(frozen=True, slots=True)
class SolvedPart:
    """The solved plan, ready for the template; pictures are for a wide and a narrow screen."""

    figures: tuple[Figure, ...]
    cautions: tuple[str, ...]
    say: tuple[str, ...]
    changes: tuple[ChangeLine, ...]
    days: tuple[DayLine, ...]
    grid: LoadGrid
    weakest: str | None
    containers: tuple[str, ...]
    wide: tuple[Picture, ...]
    narrow: tuple[Picture, ...]


def solved_part(facts: PlanFacts) -> SolvedPart:
    """The parts of the screen of a solved plan."""
    rest = facts.outcome["rest"]
    return SolvedPart(
        figures=_figures(facts),
        cautions=first_cautions(facts),
        say=() if rest is None else tuple(rest["say"]),
        changes=tuple(change_lines(facts)),
        days=tuple(_day(facts, day) for day in facts.plan["days"]),
        grid=load_grid(facts),
        weakest=weakest["say"] if (weakest := facts.plan.get("weakest")) else None,
        containers=tuple(one["say"] for one in facts.plan.get("containers") or ()),
        wide=_pictures(facts, WIDE),
        narrow=_pictures(facts, NARROW),
    )


def _figures(facts: PlanFacts) -> tuple[Figure, ...]:
    outcome, plan = facts.outcome, facts.plan
    peak, check = outcome["peak"], outcome["check"]
    carries = {load["person_id"] for trip in plan["trips"] for load in trip["loads"]}
    taken = sum(unit["count"] * unit["each_kg"] for unit in plan["taken_along"])
    return (
        Figure(
            "Peak load",
            "–" if peak is None else percent(peak["load_fraction"]),
            "of a cap"
            if peak is None
            else f"of the cap of {facts.person(peak['person_id'])}, day {peak['day']}",
        ),
        Figure("Lower bound", percent(outcome["bound"]), _proof(outcome)),
        Figure("People", str(len(carries)), f"{len(plan['trips'])} trips"),
        Figure("Days", str(len(plan["days"])), _dates(plan)),
        Figure("Taken along", f"{facts.write.mass(taken)} {facts.write.mass_unit}", "at the start"),
        Figure(
            "Independent check",
            "passed" if check["passed"] else "not passed",
            f"{check['rules_checked']} rules, {len(check['remarks'])} remarks",
        ),
    )


def _proof(outcome: Json) -> str:
    if outcome["proven"]:
        return "proven: this plan reaches it"
    return "" if outcome["gap"] is None else f"gap {percent(outcome['gap'], 2)}"


def _dates(plan: Json) -> str:
    dates = [day["date"] for day in plan["days"] if day["date"]]
    return f"{dates[0]} to {dates[-1]}" if dates else "no dates given"


def _day(facts: PlanFacts, day: Json) -> DayLine:
    ways = dict.fromkeys(
        " – ".join(facts.place(place) for place in places) for places in day["places"].values()
    )
    loads = [load for trip in facts.trips_of(day["day"]) for load in trip["loads"]]
    heaviest = max(loads, key=lambda load: float(load["load_fraction"]), default=None)
    return DayLine(
        day=day["day"],
        date=day["date"] or "–",
        kind=day["kind"].replace("_", " "),
        way="; ".join(ways),
        heaviest="–"
        if heaviest is None
        else f"{facts.person(heaviest['person_id'])}, {percent(heaviest['load_fraction'], 0)}",
    )


def _pictures(facts: PlanFacts, width: float) -> tuple[Picture, ...]:
    """All pictures but that of the loads, which the grid shows."""
    pictures = pictures_of(facts, width=width)
    return tuple(for_width(one) for one in pictures if one.picture_id != "loads")
