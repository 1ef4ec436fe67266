"""The last goal: units that a person moves between pack and sled, weighted.

Who has what on which trip does not change here. Each unit looks for the cheapest way through all
trips of its person, in the pack or on the sled (`steady/stowing.py`). No trip passes its limit, and
no more preferences are broken.
"""

from __future__ import annotations

import math
from dataclasses import replace

from solver.model.assignment.by_trip import by_trip, join
from solver.model.assignment.draft import Draft
from solver.model.formulation.frame import Frame
from solver.model.goals.goal import SearchState, SearchTools
from solver.model.goals.preferences import count_violated
from solver.model.goals.repacking_counts import weighted_repackings
from solver.model.goals.soft_constraint import SoftConstraints
from solver.model.goals.soft_constraints import soft_constraints
from solver.model.goals.steady.expedition import read_expedition
from solver.model.goals.steady.spare import spare_the_weakest
from solver.model.goals.steady.stowing import stow_alike
from solver.model.work import work_within

_STEADY_SHARE = 1.0
"""Of a steady stage's work, what this goal may take [1]."""


def value(frame: Frame, draft: Draft) -> int:
    """Repackings of a draft, each times its weight [1]."""
    return weighted_repackings(frame, draft)


def bound(state: SearchState) -> int | None:
    """No plan has fewer than none [1]."""
    return state.bounds.get("repackings", 0)


def improve(state: SearchState, tools: SearchTools) -> SearchState:
    """Leave units in the pack or on the sled where they were, as far as there is room.

    With a former plan everything stays in the pack or on the sled as it was in that plan.
    """
    frame = tools.frame
    now = value(frame, state.draft)
    if not now or frame.former is not None or not state.trip_limits:
        return state
    constraints = soft_constraints(frame)
    expedition = read_expedition(frame, state.draft, constraints, state.trip_limits)
    for one in expedition.trips:
        spare_the_weakest(one)
    work = work_within(tools.watch, steady_share=_STEADY_SHARE, racing_share=math.inf)
    stow_alike(frame, expedition, work.is_over)
    draft = _no_more_broken(frame, state.draft, expedition.draft(), constraints)
    return state if value(frame, draft) >= now else replace(state, draft=draft)


def _no_more_broken(
    frame: Frame, before: Draft, after: Draft, constraints: SoftConstraints
) -> Draft:
    """The draft after, or with one trip as before where it would break more preferences.

    Who has the highest load for days is asked of all trips together, so a trip alone cannot tell.
    """
    most = count_violated(frame, before, constraints)
    if count_violated(frame, after, constraints) <= most:
        return after
    old, new = by_trip(frame, before), by_trip(frame, after)
    found = [(value(frame, before), len(old), before)]
    for trip, held in enumerate(old):
        if held != new[trip]:
            draft = join([*new[:trip], held, *new[trip + 1 :]])
            if count_violated(frame, draft, constraints) <= most:
                found.append((value(frame, draft), trip, draft))
    return min(found, key=lambda one: one[:2])[2]
