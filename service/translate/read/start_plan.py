"""A plan to begin from, read as a plan of the solver."""

from __future__ import annotations

from api_schema.plan_request import OptionsRequest
from service.errors import Fault
from service.translate.read.edited_plan import PlanReader
from service.translate.read.notes import Notes
from solver.checker.ledger.facts import read_facts
from solver.plan import Plan
from solver.problem import Problem, Timeline


def read_start_plan(
    options: OptionsRequest, problem: Problem, timeline: Timeline | None, notes: Notes
) -> Plan | None:
    """The plan of the options, None for none, or for one of things that the request has not.

    An id alone is left to whoever accepts the request, as in `read_near_plan`.
    """
    start = options.start_plan
    if start is None:
        return None
    if start.plan is None:
        if start.plan_id is None:
            notes.fault("/options/start_plan", "missing", "Give plan_id or plan.")
        return None
    if timeline is None or notes.faults:
        return None
    unknown: list[Fault] = []
    plan = PlanReader(read_facts(problem, timeline), unknown).plan(start.plan)
    return None if unknown else plan
