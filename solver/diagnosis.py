"""Why there is no plan, and what would help: a clash, changes that were tried, the nearest plan."""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import StrEnum

from solver.problem import Problem

Names = tuple[tuple[str, str | int], ...]
"""What something is about, as (name, value) pairs: day, step, person, place, unit."""


@dataclass(frozen=True, slots=True)
class ClashMember:
    """One statement of a clash: its rule, a sentence with its numbers, and where it stands.

    `amount` is by how much it alone would have to give way for divisible loads, in `unit`; None
    where it can only be let go as a whole. `unit_ids` are the things that it is about.
    `needed` says that a plan was found which keeps every other member.
    """

    rule_id: str
    message: str
    where: Names
    needed: bool
    person_ids: tuple[str, ...] = ()
    unit_ids: tuple[str, ...] = ()
    amount: int | None = None
    unit: str = ""


@dataclass(frozen=True, slots=True)
class Reach:
    """What a proof that there is no plan leans on: things, and legs as (from, to) of caps.

    A change that helps alone must touch every such proof.
    """

    unit_ids: frozenset[str]
    ends: frozenset[tuple[str, str]]


class ChangeKind(StrEnum):
    """What a change is about, from what costs least in the field to what costs most."""

    SEND_AHEAD = "send_ahead"
    TAKE_MORE = "take_more"
    LEAVE = "leave"
    CAP = "cap"
    SLED = "sled"
    PERSON = "person"
    CARRY = "carry"
    NIGHT_LESS = "night_less"
    NIGHT_MORE = "night_more"
    RESERVE = "reserve"


@dataclass(frozen=True, slots=True)
class Remedied:
    """Changes that together make the problem solvable, confirmed by solving it.

    One change as a rule, two where no single one helps. `amounts` are theirs in `units`, None
    where a change has none. `is_decision` marks those that are the leader's to decide. `problem`
    is what was solved, with the changes made.
    """

    kinds: tuple[ChangeKind, ...]
    texts: tuple[str, ...]
    amounts: tuple[int | None, ...]
    units: tuple[str, ...]
    about: tuple[Names, ...]
    is_decision: bool
    problem: Problem = field(compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Breakage:
    """What the nearest plan breaks: a rule, by how much, and where."""

    rule_id: str
    message: str
    amount: int
    unit: str
    where: Names = ()


@dataclass(frozen=True, slots=True)
class Diagnosis:
    """What was found out about a problem without a plan, within a budget of time.

    `clash` is empty where none was shown; `none_can_be_left_out` says that every member is needed.
    `tried` changes were judged, `not_tried` were left when the time ended. `broken` is what the
    nearest plan breaks, empty where none was found.
    """

    clash: tuple[ClashMember, ...] = ()
    none_can_be_left_out: bool = False
    remedies: tuple[Remedied, ...] = ()
    pairs: tuple[Remedied, ...] = ()
    tried: int = 0
    not_tried: int = 0
    broken: tuple[Breakage, ...] = ()
    held_fixed: tuple[str, ...] = field(default=())
