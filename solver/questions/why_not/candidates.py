"""Which changes are worth trying: those that can break the clash that was found.

A change that helps alone breaks every clash. So one that touches no member of the clash at hand
need not be tried: a thing that is in none, a carry on a leg whose caps are in none, a thing that
weighs less than what is too much. This leaves out nothing that would help, except one more of a
thing where a cap is in the clash: that is rare, and would take the time of what helps more often.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from solver.diagnosis import ChangeKind, ClashMember, Reach
from solver.problem import LegMode, Problem
from solver.questions.changes.caps import cap_changes
from solver.questions.changes.change import Change
from solver.questions.changes.days import day_changes
from solver.questions.changes.people import sled_changes
from solver.questions.changes.things import (
    gear_changes,
    reserve_changes,
    stock_changes,
    thing_changes,
)

_HELD = frozenset({"reserves_held", "turn_round_stock_held"})
"""Rules on reserves."""


def all_changes(problem: Problem) -> list[Change]:
    """Every change that is not in force yet, the cheapest in the field first."""
    found = [
        *thing_changes(problem),
        *gear_changes(problem),
        *stock_changes(problem),
        *cap_changes(problem),
        *sled_changes(problem),
        *day_changes(problem),
        *reserve_changes(problem),
    ]
    return sorted(found, key=lambda change: change.cost())


@dataclass(frozen=True, slots=True)
class Found:
    """A problem with the clash that was found, and what further proofs lean on."""

    problem: Problem
    clash: tuple[ClashMember, ...]
    others: tuple[Reach, ...] = ()

    @property
    def caps(self) -> list[ClashMember]:
        """The members that are about caps."""
        return [member for member in self.clash if member.person_ids]

    def reaches(self) -> list[Reach]:
        """What each proof leans on."""
        units = frozenset(unit_id for member in self.clash for unit_id in member.unit_ids)
        return [Reach(units, frozenset(_ends(member) for member in self.caps)), *self.others]


def may_help(change: Change, found: Found) -> bool:
    """Whether a change can break every proof that there is no plan; of others than caps it may.

    Changes that are measured are for the relaxation to judge. One more of a thing is tried where
    the thing is in every proof and no cap is.
    """
    if change.kind is ChangeKind.TAKE_MORE and _is_gear(change, found.problem):
        unit_id = dict(change.about)["unit"]
        return not found.caps and all(unit_id in reach.unit_ids for reach in found.reaches())
    if change.is_measured or not found.caps:
        return True
    about, reaches = dict(change.about), found.reaches()
    match change.kind:
        case ChangeKind.SEND_AHEAD | ChangeKind.LEAVE:
            touched = all(about["unit"] in reach.unit_ids for reach in reaches)
            return touched and _is_enough(change, found.caps, found.problem)
        case ChangeKind.CARRY:
            ends = (str(about["from_place"]), str(about["to_place"]))
            return all(ends in reach.ends for reach in reaches)
        case ChangeKind.SLED:
            legs = [leg for reach in reaches for leg in reach.ends]
            return any(_mode(ends, found.problem) is LegMode.SLED for ends in legs)
        case ChangeKind.RESERVE:
            held = {member.rule_id for member in found.clash} & _HELD
            group = f"{about['cook_group']}/"
            return bool(held) or any(
                unit_id.startswith(group) for reach in reaches for unit_id in reach.unit_ids
            )
        case ChangeKind.NIGHT_LESS:
            return True
    return False


def _is_gear(change: Change, problem: Problem) -> bool:
    return dict(change.about)["unit"] in {item.unit_id for item in problem.gear}


def _is_enough(change: Change, caps: Sequence[ClashMember], problem: Problem) -> bool:
    """Whether a thing is as large as what is too much, on the trips of the clash together."""
    unit_id = dict(change.about)["unit"]
    item = next(item for item in problem.gear if item.unit_id == unit_id)
    sizes = {"g": item.mass_g, "mL": item.packed_volume_ml}
    return any(
        member.amount is None or item.count * sizes[member.unit] * len(caps) >= member.amount
        for member in caps
    )


def _ends(member: ClashMember) -> tuple[str, str]:
    where = dict(member.where)
    return str(where["from_place"]), str(where["to_place"])


def _mode(ends: tuple[str, str], problem: Problem) -> LegMode:
    return problem.route.leg_between(*ends).mode
