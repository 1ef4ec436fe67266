"""A refusal of the request alone: findings of the check, grouped by their cause."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence

from solver.outcome import Conflict, Occurrence, remedies_of
from solver.plan import Finding


def group_findings(findings: Sequence[Finding]) -> tuple[Conflict, ...]:
    """One conflict for each rule, told at its worst place; the other places are in `more`.

    What would be allowed instead is told once, however many places offer it.
    """
    by_rule: dict[str, list[Finding]] = defaultdict(list)
    for finding in findings:
        by_rule[finding.rule_id].append(finding)
    return tuple(_conflict(its) for its in by_rule.values())


def _conflict(findings: list[Finding]) -> Conflict:
    worst = max(findings, key=lambda finding: finding.amount)
    others = [finding for finding in findings if finding is not worst]
    texts = tuple(dict.fromkeys(text for f in (worst, *others) for text in f.instead))
    return Conflict(
        worst.rule_id,
        worst.message,
        remedies_of(texts),
        worst.amount,
        worst.unit,
        worst.where,
        tuple(Occurrence(f.rule_id, f.message, f.amount, f.unit, f.where) for f in others),
    )
