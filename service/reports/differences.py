"""What differs between two plans: in the request, the figures, what is taken, and the loads."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import islice
from typing import Any

from api_schema.difference_answer import DifferenceAnswer, FigureDifferenceAnswer
from api_schema.figures_answer import PlanFiguresAnswer
from api_schema.ledger_difference_answer import LoadDifferenceAnswer, TakenDifferenceAnswer
from service.reports.figures import figures_of_outcome, kg_by_person_and_trip
from service.reports.input_differences import input_differences
from service.reports.paper.things import Things
from service.reports.tables import Cell, Table, table_of

Document = dict[str, Any]

MOST_INPUTS = 500
COLUMNS = ("part", "what", "from", "to", "change")


@dataclass(frozen=True, slots=True)
class ComparedPlan:
    """A plan to be held against another: its name, its request without edits, its outcome."""

    plan_id: str
    request: Document
    outcome: Document


def difference_of(one: ComparedPlan, other: ComparedPlan) -> DifferenceAnswer:
    """What differs from one plan to another."""
    inputs = input_differences(one.request, other.request)
    shown = list(islice(inputs, MOST_INPUTS))
    before, after = (figures_of_outcome(plan.outcome, plan.request) for plan in (one, other))
    people, others = (
        [person["person_id"] for person in plan.request["roster"]] for plan in (one, other)
    )
    solved = one.outcome["outcome"] == other.outcome["outcome"] == "solved"
    plans = (one.outcome["plan"], other.outcome["plan"]) if solved else None
    return DifferenceAnswer(
        plan_id=one.plan_id,
        to_plan_id=other.plan_id,
        input=shown,
        input_left_out=sum(1 for _ in inputs),
        people_left=[person for person in people if person not in others],
        people_joined=[person for person in others if person not in people],
        figures=list(_figures(before, after)),
        taken=[] if plans is None else list(_taken(*plans)),
        loads=[] if plans is None else list(_loads(*plans)),
        figures_from=before,
        figures_to=after,
    )


def _figures(
    before: PlanFiguresAnswer, after: PlanFiguresAnswer
) -> Iterator[FigureDifferenceAnswer]:
    for name in PlanFiguresAnswer.model_fields:
        one, other = getattr(before, name), getattr(after, name)
        if one != other:
            numbers = isinstance(one, int | float) and isinstance(other, int | float)
            change = round(other - one, 4) if numbers else None
            yield FigureDifferenceAnswer(figure=name, from_=one, to=other, change=change)


def _taken(one: Document, other: Document) -> Iterator[TakenDifferenceAnswer]:
    counts = [{unit["unit_id"]: unit for unit in plan["taken_along"]} for plan in (one, other)]
    names = [Things(plan) for plan in (one, other)]
    for unit_id in dict.fromkeys((*counts[0], *counts[1])):
        units = [part.get(unit_id, {"count": 0, "each_kg": 0.0}) for part in counts]
        if units[0]["count"] == units[1]["count"]:
            continue
        things = names[0 if unit_id in counts[0] else 1]
        masses = [unit["count"] * unit["each_kg"] for unit in units]
        yield TakenDifferenceAnswer(
            unit_id=unit_id,
            thing=things.label(unit_id),
            kind=things.kind(unit_id),
            from_count=units[0]["count"],
            to_count=units[1]["count"],
            change_kg=round(masses[1] - masses[0], 3),
        )


def _loads(one: Document, other: Document) -> Iterator[LoadDifferenceAnswer]:
    before, after = kg_by_person_and_trip(one), kg_by_person_and_trip(other)
    for key in dict.fromkeys((*before, *after)):
        person_id, day, step, from_place, to_place = key
        change_kg = round(after.get(key, 0.0) - before.get(key, 0.0), 3)
        if change_kg:
            yield LoadDifferenceAnswer(
                person_id=person_id,
                day=day,
                step=step,
                from_place=from_place,
                to_place=to_place,
                from_kg=before.get(key),
                to_kg=after.get(key),
                change_kg=change_kg,
            )


def difference_table(told: DifferenceAnswer) -> Table:
    """All that differs with one line for each part, figure, thing and load."""
    rows: list[tuple[str, str, Cell, Cell, Cell]] = [
        *(("input", part.where, part.from_, part.to, part.kind) for part in told.input),
        *(("figure", f.figure, f.from_, f.to, f.change) for f in told.figures),
        *(("taken", t.thing, t.from_count, t.to_count, t.change_kg) for t in told.taken),
        *(
            (
                "load kg",
                f"{load.person_id}, day {load.day}, {load.from_place} to {load.to_place}",
                load.from_kg,
                load.to_kg,
                load.change_kg,
            )
            for load in told.loads
        ),
    ]
    return table_of(COLUMNS, [dict(zip(COLUMNS, row, strict=True)) for row in rows])
