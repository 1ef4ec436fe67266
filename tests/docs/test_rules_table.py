"""The table of rules in the README of the rulebook is the rulebook's."""

import pytest

from solver.rulebook import RULES
from solver.rulebook.not_rules import NOT_RULES
from tests.docs.write_rules_table import BEGIN, END, GUIDE, with_table


def test_the_table_is_current():
    """Written anew, the guide stays as it is; else run python -m tests.docs.write_rules_table."""
    text = GUIDE.read_text(encoding="utf-8")
    assert with_table(text) == text


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.rule_id)
def test_each_rule_stands_in_the_guide_with_its_sentence(rule):
    """A rule's id and its sentence are on one line of the guide."""
    lines = GUIDE.read_text(encoding="utf-8").splitlines()
    assert any(f"`{rule.rule_id}`" in line and rule.sentence in line for line in lines)


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.rule_id)
def test_each_rule_stands_in_the_guide_with_its_kind_and_numbers(rule):
    """A rule's line says its kind, and each of its numbers with value, least and most."""
    (line,) = (
        line
        for line in GUIDE.read_text(encoding="utf-8").splitlines()
        if line.startswith(f"| `{rule.rule_id}` |")
    )
    assert line.split(" | ")[1].split(", ")[0] == rule.kind.value
    for s in rule.settings:
        assert f"`{s.name}` {s.value:g}, {s.least:g} to {s.most:g} {s.unit}" in line


def test_what_is_no_rule_stands_in_the_guide_with_its_reason():
    """Each statement that is no rule is on one line with the reason."""
    lines = GUIDE.read_text(encoding="utf-8").splitlines()
    for entry in NOT_RULES:
        assert f"| {entry.statement} | {entry.reason} |" in lines


def test_a_stale_table_is_replaced():
    """What stood between the marks goes, and what stands around them stays."""
    old = f"above\n{BEGIN}an old line\n{END}below\n"
    assert "an old line" not in with_table(old)
    assert with_table(old).startswith("above\n")
    assert with_table(old).endswith("below\n")


def test_a_guide_without_marks_is_refused():
    """Without its marks the table has no place, and that is said."""
    with pytest.raises(ValueError, match="lacks a line"):
        with_table("no marks here")
