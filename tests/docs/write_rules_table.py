"""Writes the table of rules in DEVELOPERS.md anew from the rulebook.

python -m tests.docs.write_rules_table
"""

from __future__ import annotations

from pathlib import Path

from solver.rulebook import RULES, Rule

GUIDE = Path(__file__).parents[2] / "DEVELOPERS.md"
BEGIN = "<!-- rules: written by python -m tests.docs.write_rules_table -->\n"
END = "<!-- end of rules -->\n"


def rules_table() -> str:
    """The table, one line a rule in the rulebook's order."""
    head = "| rule | requires | unit | default | source |\n|---|---|---|---|---|\n"
    return head + "".join(map(_line, RULES))


def with_table(text: str) -> str:
    """A guide's text with what stands between the marks replaced by the table."""
    before, begin, rest = text.partition(BEGIN)
    _, end, after = rest.partition(END)
    if not begin or not end:
        raise ValueError(f"{GUIDE.name} lacks a line {BEGIN.strip()!r} or {END.strip()!r}")
    return f"{before}{BEGIN}\n{rules_table()}\n{END}{after}"


def _line(rule: Rule) -> str:
    cells = (f"`{rule.rule_id}`", rule.sentence, rule.unit, rule.default or "", rule.source.value)
    return f"| {' | '.join(cells)} |\n"


if __name__ == "__main__":
    GUIDE.write_text(with_table(GUIDE.read_text(encoding="utf-8")), encoding="utf-8")
