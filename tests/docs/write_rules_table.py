"""Writes the tables of rules, and of what is none, in the README of the rulebook.

python -m tests.docs.write_rules_table
"""

from __future__ import annotations

from pathlib import Path

from solver.rulebook import RULES, NotARule, Rule, Setting
from solver.rulebook.not_rules import NOT_RULES
from solver.rulebook.sources import ALL_DOCUMENTS

GUIDE = Path(__file__).parents[2] / "solver" / "rulebook" / "README.md"
BEGIN = "<!-- rules: written by python -m tests.docs.write_rules_table -->\n"
END = "<!-- end of rules -->\n"


def rules_table() -> str:
    """The table, one line a rule in the rulebook's order."""
    head = (
        "| rule | kind | requires | unit | default | numbers, least to most | asked | source |\n"
        "|---|---|---|---|---|---|---|---|\n"
    )
    return head + "".join(map(_line, RULES))


def not_rules_table() -> str:
    """The table of statements that are no rule, one line each; empty where there are none."""
    if not NOT_RULES:
        return ""
    return "\n| no rule of its own | because |\n|---|---|\n" + "".join(map(_reason, NOT_RULES))


def with_table(text: str) -> str:
    """The README's text with what stands between the marks replaced by the table."""
    before, begin, rest = text.partition(BEGIN)
    _, end, after = rest.partition(END)
    if not begin or not end:
        raise ValueError(f"{GUIDE.name} lacks a line {BEGIN.strip()!r} or {END.strip()!r}")
    return f"{before}{BEGIN}\n{rules_table()}{not_rules_table()}{documents_table()}\n{END}{after}"


def _line(rule: Rule) -> str:
    cells = (
        f"`{rule.rule_id}`",
        rule.kind.value + (", firm" if rule.firm else ""),
        rule.sentence,
        rule.unit,
        rule.default or "",
        "; ".join(map(_number, rule.settings)),
        "on glaciers" if rule.on_glaciers else "always",
        _source(rule),
    )
    return f"| {' | '.join(cells)} |\n"


def _source(rule: Rule) -> str:
    named = [f"`{c.document.document_id}`: {c.says}" for c in rule.documents]
    return "<br>".join([rule.source.value, *named, *([rule.departs] if rule.departs else [])])


def documents_table() -> str:
    """The documents by id, each with title, publisher and year."""
    rows = "".join(f"| `{d.document_id}` | {d.words} |\n" for d in ALL_DOCUMENTS)
    return f"\n| document | title (publisher, year) |\n|---|---|\n{rows}"


def _number(setting: Setting) -> str:
    return (
        f"`{setting.name}` {setting.value:g}, {setting.least:g} to {setting.most:g} {setting.unit}"
    )


def _reason(entry: NotARule) -> str:
    return f"| {entry.statement} | {entry.reason} |\n"


if __name__ == "__main__":
    GUIDE.write_text(with_table(GUIDE.read_text(encoding="utf-8")), encoding="utf-8")
