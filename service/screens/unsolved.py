"""Why there is no plan, for the screen: each cause with what would help."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

_MOST_CAUSES = 20


@dataclass(frozen=True, slots=True)
class Cause:
    """One cause: what clashes, the rule, and what would be allowed."""

    message: str
    rule: str
    more: int
    remedies: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class UnsolvedPart:
    """A sentence that says what came of it, then the causes."""

    sentence: str
    causes: tuple[Cause, ...]
    left_out: int


def unsolved_part(outcome: dict[str, Any]) -> UnsolvedPart:
    """The part of an outcome without a plan."""
    if outcome["outcome"] == "infeasible":
        causes = outcome["conflicts"]
        return UnsolvedPart(
            "These rules cannot all be kept together, so no plan can exist.",
            tuple(_cause(cause) for cause in causes[:_MOST_CAUSES]),
            max(0, len(causes) - _MOST_CAUSES),
        )
    if outcome["outcome"] == "no_plan_in_time":
        sentence = "No plan was found in the time allowed. There may be one: allow more time."
        return UnsolvedPart(sentence, (), 0)
    return UnsolvedPart(f"The fault is ours, not yours. {outcome.get('detail', '')}", (), 0)


def _cause(cause: dict[str, Any]) -> Cause:
    remedies = tuple(
        f"{one['text']} (the leader decides)" if one["is_decision"] else str(one["text"])
        for one in cause["remedies"]
    )
    return Cause(cause["message"], cause["rule_id"], len(cause["more"]), remedies)
