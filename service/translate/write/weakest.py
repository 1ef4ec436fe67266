"""What the people with the least cap carry, and why, as the wire has it."""

from __future__ import annotations

from typing import Literal

from api_schema.weakest_answer import WeakestAnswer
from service.translate.read.requests import ReadRequest
from service.translate.write.unit_labels import UnitLabels
from solver.checker import why_so_much
from solver.checker.queries.weak_share import WeakShare
from solver.plan import Plan

Reason = Literal["not_above", "own_kit", "no_hand_over", "later_goals"]


def write_weakest(read: ReadRequest, plan: Plan) -> WeakestAnswer | None:
    """The shares of a plan; None where all have the same cap."""
    found = why_so_much(read.problem, plan, read.timeline)
    if found is None:
        return None
    reason = reason_of(found)
    return WeakestAnswer(
        person_ids=list(found.person_ids),
        cap_kg=found.cap_g / 1000,
        mean_share=round(found.mean / 10_000, 4),
        party_mean_share=round(found.party / 10_000, 4),
        own_share=round(found.own / 10_000, 4),
        reason=reason,
        say=say_of(found, reason, UnitLabels(read.problem, read.names)),
    )


def reason_of(found: WeakShare) -> Reason:
    """Why their mean is above the party's, the first reason that holds."""
    if not found.is_above:
        return "not_above"
    if found.own_forces_it:
        return "own_kit"
    return "later_goals" if found.could_go is not None else "no_hand_over"


def say_of(found: WeakShare, reason: Reason, labels: UnitLabels) -> str:
    """The shares and the reason in words; things by name."""
    who = " and ".join(found.person_ids)
    mean, party, own = (f"{share / 100:.1f} %" for share in (found.mean, found.party, found.own))
    begin = f"The mean load of {who}, with the least cap, is {mean}. The party's is {party}."
    match reason:
        case "not_above":
            return begin
        case "own_kit":
            return f"{begin} Own kit, water and lunch alone come to {own}."
        case "no_hand_over":
            rules = "The hard rules forbid each hand-over to people with room"
            return f"{begin} {rules} ({found.tried} tried)."
    one = found.could_go
    if one is None:
        return begin
    thing = f'For example one "{labels.of(one.unit_id).label}"'
    example = f"{thing} could go to {one.to_person} on day {one.day}"
    return f"{begin} {example}, but a preference or too many swaps stand against it."
