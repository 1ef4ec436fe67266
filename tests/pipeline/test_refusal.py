"""Findings of a request grouped by their cause."""

from __future__ import annotations

from solver.outcome import RemedyKind, remedies_of
from solver.plan import Finding
from solver.refusal import group_findings
from solver.rulebook.kinds import DECISION


def found(rule_id: str, amount: int, person: str, *instead: str) -> Finding:
    """A finding about a person."""
    return Finding(rule_id, f"{person} {amount}", amount, "g", (("person", person),), instead)


def test_findings_of_one_rule_are_one_conflict_told_at_its_worst() -> None:
    """Three findings of two rules are two causes; the worst is told, the other is kept as data."""
    cold, caps = group_findings(
        (
            found("kit_listed", 1, "m1", "a bag"),
            found("kit_listed", 3, "m2", "a bag", "a mat"),
            found("seats_for_all", 2, "m3"),
        )
    )
    assert (cold.rule_id, cold.message, cold.amount, dict(cold.where)) == (
        "kit_listed",
        "m2 3",
        3,
        {"person": "m2"},
    )
    assert [(one.message, one.amount) for one in cold.more] == [("m1 1", 1)]
    assert [way.text for way in cold.remedies] == ["a bag", "a mat"]
    assert (caps.rule_id, caps.more) == ("seats_for_all", ())


def test_a_decision_comes_last_whatever_the_order_in_which_it_was_told() -> None:
    """What begins as a decision of the leader is a remedy of reserves, without the opening."""
    ways = remedies_of((f"{DECISION} one night less", "one more stove"))
    assert [(way.kind, way.text) for way in ways] == [
        (RemedyKind.OTHER, "one more stove"),
        (RemedyKind.RESERVE, "one night less"),
    ]
