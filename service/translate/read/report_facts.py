"""A followed plan with the line that it came of, and a report on it that is being read."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from api_schema.report import TripReportRequest
from service.errors import Fault
from service.translate.read.gone_on_the_way import OnTheWay
from service.translate.read.requests import ReadRequest
from solver.problem import Container, NightSet, Problem

Document = Mapping[str, Any]


@dataclass(frozen=True, slots=True)
class Line:
    """A followed plan and the plans that it came of, as they are stored.

    `document` is the plan's own stored request, `outcome` its solved outcome, `first_outcome` that
    of the first plan of the line that is still stored, `is_whole` whether that is the plan from
    the start, and `states` the counts that were sent on the way and are still stored, by the place
    of each in the line, from 0.
    """

    plan_id: str
    document: dict[str, Any]
    outcome: Document
    first_plan_id: str
    first_outcome: Document
    is_whole: bool
    states: Mapping[int, Document] = field(default_factory=dict)

    @property
    def request(self) -> dict[str, Any]:
        """The request of the plan; of a re-plan, as what was counted left it."""
        request: dict[str, Any] = self.document
        if "state" in self.document:
            request = self.document["request"]
        return request


@dataclass(slots=True)
class ReadReport:
    """A report in order, with the plan that it is about; counts are units by id."""

    line: Line
    read: ReadRequest
    asked: TripReportRequest
    taken: Mapping[str, int]
    on_the_way: OnTheWay
    faults: list[Fault] = field(default_factory=list)

    @property
    def problem(self) -> Problem:
        """The problem of the plan."""
        return self.read.problem

    @property
    def plan(self) -> Document:
        """The plan, as its answer has it."""
        plan: Document = self.line.outcome["plan"]
        return plan

    def sets(self) -> dict[str, NightSet]:
        """The night sets of the plan by the id of their bags."""
        return {one.unit_id: one for one in self.problem.night_sets}

    def containers(self) -> dict[str, Container]:
        """The kinds of containers of the plan by the id of a full one."""
        return {one.unit_id: one for g in self.problem.cook_groups for one in g.containers}

    def gone(self, unit_id: str) -> int:
        """Units that nobody used: said to be gone on the way or in the report."""
        here = sum(one.count for one in self.asked.gone if one.unit_id == unit_id)
        return here + self.on_the_way.gone.get(unit_id, 0)

    def opened_gone(self, unit_id: str) -> int:
        """Containers of a kind that were gone after they had been opened."""
        gone = self.on_the_way.gone.items()
        return sum(number for unit, number in gone if unit.startswith(f"{unit_id}/"))

    def had(self, unit_id: str) -> int:
        """Units that the party ever had."""
        return self.taken.get(unit_id, 0) + self.on_the_way.brought.get(unit_id, 0)

    def fault(self, pointer: str, code: str, words: str) -> None:
        """Take down a fault."""
        self.faults.append(Fault(pointer, code, words))


def load_of(
    report: ReadReport, person_id: str, day: int, step: int | None
) -> tuple[Document, Document] | None:
    """A person's trip and load of a day: at a step, or else the first; None for none."""
    for trip in report.plan["trips"]:
        if trip["day"] == day and step in {None, trip["step"]}:
            for load in trip["loads"]:
                if load["person_id"] == person_id:
                    return trip, load
    return None
