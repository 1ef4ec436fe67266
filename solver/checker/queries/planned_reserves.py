"""What reserves a request plans for each cook group, and where the group sleeps."""

from __future__ import annotations

from solver.checker.ledger.facts import Facts
from solver.plan import Finding
from solver.problem import CookGroup, ReserveKind


def slept_at(facts: Facts, group: CookGroup) -> list[str]:
    """The place where a cook group sleeps, night by night."""
    return [m.place_id for m in facts.meals if m.cook_group_id == group.cook_group_id]


def nights_planned(facts: Facts, group: CookGroup, place_id: str, *kinds: ReserveKind) -> int:
    """Nights of a group's reserves of some kinds at a place; they add up [nights]."""
    return sum(
        reserve.nights
        for reserve in facts.problem.reserves
        if (reserve.cook_group_id, reserve.place_id) == (group.cook_group_id, place_id)
        and reserve.kind in kinds
    )


def lacking(
    rule_id: str, group: CookGroup, place_id: str, *, word: str, planned: int, least: int
) -> Finding:
    """The finding of a reserve that is planned too small or not at all."""
    more = least - planned
    return Finding(
        rule_id,
        f"cook group {group.cook_group_id} at {place_id}: {word} of {_nights(planned)} is planned, "
        f"{_nights(least)} is the least",
        more,
        "nights",
        (("place", place_id), ("cook_group", group.cook_group_id)),
        (f"add {word} of {_nights(more)} for {group.cook_group_id} at {place_id}",),
    )


def _nights(count: int) -> str:
    return "1 night" if count == 1 else f"{count or 'no'} nights"
