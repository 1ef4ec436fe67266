"""The clash of a request that breaks a rule by itself: that rule alone allows no plan."""

from __future__ import annotations

from collections.abc import Sequence

from solver.diagnosis import ClashMember
from solver.plan import Finding


def clash_of_request(findings: Sequence[Finding]) -> tuple[ClashMember, ...]:
    """The rule that is broken worst in the first group of findings, a clash with the request."""
    first = findings[0].rule_id
    worst = max((f for f in findings if f.rule_id == first), key=lambda f: f.amount)
    return (
        ClashMember(
            worst.rule_id,
            worst.message,
            worst.where,
            needed=True,
            amount=worst.amount,
            unit=worst.unit,
        ),
    )
