"""The screen that lists plans, newest first."""

from __future__ import annotations

from collections.abc import Sequence
from typing import get_args
from urllib.parse import urlencode

from api_schema.plan_resource import PlanListAnswer, PlanStateName
from service.screens.frame import Screen, screen
from service.screens.links import Link
from service.screens.words import moment_words, solve_words, state_words

STATES: Sequence[str] = get_args(PlanStateName)
_ALL_STATES = "all states"


def plan_list_screen(
    answer: PlanListAnswer, *, reference: str | None, state: str | None, is_first: bool
) -> Screen:
    """One page of the list, with what it was asked for."""
    rows = [
        {
            "address": f"/v1/plans/{plan.plan_id}",
            "name": plan.reference or "no reference",
            "plan_id": plan.plan_id,
            "kind": plan.outcome_kind or plan.state,
            "words": state_words(plan),
            "created": moment_words(plan.created_at),
            "took": solve_words(plan),
        }
        for plan in answer.plans
    ]
    choices = [
        Link(_address(reference=reference, state=one), one or _ALL_STATES)
        for one in (None, *STATES)
    ]
    return screen(
        "plans.html.j2",
        title="Plans",
        rows=rows,
        choices=choices,
        chosen=state or _ALL_STATES,
        reference=reference or "",
        is_first=is_first,
        older=None
        if answer.next_cursor is None
        else _address(reference=reference, state=state, cursor=answer.next_cursor),
    )


def _address(**asked: str | None) -> str:
    """The address of a list, with what was asked for."""
    given = {name: value for name, value in asked.items() if value}
    return f"/v1/plans?{urlencode(given)}" if given else "/v1/plans"
