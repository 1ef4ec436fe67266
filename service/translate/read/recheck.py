"""A re-plan that is stored with its outcome, read for another check."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from service.errors import ServiceProblem
from service.translate.read.replans import read_replan
from service.translate.read.requests import ReadRequest
from service.translate.read.stored_plan import read_stored_plan
from solver.plan import Plan
from solver.problem import ReserveKind, read_timeline
from solver.rest.left import as_planned, what_is_left
from solver.rest.result import LettingGo


def read_recheck(stored: dict[str, Any], outcome: dict[str, Any]) -> tuple[ReadRequest, Plan]:
    """The request as what was counted and let go left it, and the plan that came of it.

    Raises RequestFaults where today's rules refuse the state, and the problem no_plan_in_outcome
    for an evacuation, whose two parties are judged by themselves.
    """
    replan = read_replan(stored)
    if replan.hurt is not None:
        words = "A plan for an evacuation is checked when it is made, and cannot be checked again."
        raise ServiceProblem("no_plan_in_outcome", words)
    told = outcome["rest"]
    problem, _ = what_is_left(replan.read.problem, replan.followed, replan.state.wait_nights)
    if not told["unchanged"]:
        problem = as_planned(
            problem,
            [
                LettingGo(
                    step["reason"],
                    step["rule_id"],
                    None if step["reserve"] is None else ReserveKind(step["reserve"]),
                    step["place"],
                )
                for step in told["let_go"]
            ],
        )
    read = replace(replan.read, problem=problem, timeline=read_timeline(problem))
    return read, read_stored_plan(outcome["plan"])
