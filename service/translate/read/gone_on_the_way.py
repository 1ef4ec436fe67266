"""What earlier counts of a line of plans say that nobody used, and what they leave unexplained."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

_Document = Mapping[str, Any]
_At = tuple[str, str]
"""A place and a unit id."""


@dataclass(frozen=True, slots=True)
class OnTheWay:
    """Units by id: gone without being used, brought by others, and counted otherwise.

    `otherwise` has what was counted more (above 0) or fewer than planned without anybody saying
    why; over all places, so that a unit that only stood elsewhere is not in it.
    """

    gone: Mapping[str, int] = field(default_factory=dict)
    brought: Mapping[str, int] = field(default_factory=dict)
    otherwise: Mapping[str, int] = field(default_factory=dict)


def on_the_way(settled: Sequence[_Document], states: Mapping[int, _Document]) -> OnTheWay:
    """What the settled counts of a line come to, by the states that were sent for them.

    `states` are those that are still stored, by the place of their count in the line, from 0. What
    another count changed counts as counted otherwise, since nobody knows any more why.
    """
    gone: dict[str, int] = defaultdict(int)
    brought: dict[str, int] = defaultdict(int)
    otherwise: dict[str, int] = defaultdict(int)
    for index, count in enumerate(settled):
        changed: dict[_At, int] = defaultdict(int)
        for one in count["changes"]:
            changed[one["place"], one["unit_id"]] += one["count"]
        if index not in states:
            for (_, unit_id), number in changed.items():
                otherwise[unit_id] += number
            continue
        state = states[index]
        lost, came = _lost(state, count), _brought(state)
        counted = {(one["place"], one["unit_id"]) for one in state.get("counts", ())}
        for at in {*changed, *counted}:
            number = changed[at]
            if at in counted:
                gone[at[1]] += lost.get(at, 0)
                brought[at[1]] += came.get(at, 0)
                otherwise[at[1]] += number + lost.get(at, 0) - came.get(at, 0)
            elif number < 0:
                gone[at[1]] -= number
            else:
                brought[at[1]] += number
    return OnTheWay(dict(gone), dict(brought), {u: n for u, n in otherwise.items() if n})


def _lost(state: _Document, count: _Document) -> dict[_At, int]:
    """What was said to be lost, or taken along by somebody who left, by place and unit."""
    lost: dict[_At, int] = defaultdict(int)
    for one in state.get("lost", ()):
        lost[one["place"], one["unit_id"]] += one.get("count", 1)
    places = {one["person_id"]: one["place"] for one in count["left"]}
    for one in state.get("left", ()):
        for units in one.get("takes", ()):
            at = places.get(one["person_id"], ""), units["unit_id"]
            lost[at] += units.get("count", 1)
    return lost


def _brought(state: _Document) -> dict[_At, int]:
    """What was brought by somebody who joined, by place and unit."""
    came: dict[_At, int] = defaultdict(int)
    for one in state.get("joins", ()):
        for units in one.get("brings", ()):
            came[one["place"], units["unit_id"]] += units.get("count", 1)
    return came
