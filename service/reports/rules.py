"""The rulebook as a list for callers, and as a page for people."""

from __future__ import annotations

from collections.abc import Mapping
from html import escape
from types import MappingProxyType
from typing import Literal

from api_schema.reference import DocumentAnswer, NotARuleAnswer, RuleAnswer, SettingAnswer
from service.reports.page import page
from solver.checker.request_rules import REQUEST_RULES
from solver.rulebook import RULES, Rule, RuleKind, Setting
from solver.rulebook.documents import Citation
from solver.rulebook.not_rules import NOT_RULES

_KIND_NAMES: Mapping[RuleKind, Literal["hard", "preference", "advisory"]] = MappingProxyType(
    {
        RuleKind.HARD: "hard",
        RuleKind.PREFERENCE: "preference",
        RuleKind.ADVISORY: "advisory",
    }
)
_ON_THE_REQUEST = frozenset(rule_id for rule_id, _ in REQUEST_RULES)

DEFERENCE = "The permit, the pilot, the physician and the licensed guide come before any rule here."
"""Who and what comes before the rules."""

KINDS = {
    RuleKind.HARD: (
        "Hard rules",
        "Every plan keeps these. A request can waive one that is not firm, with a reason.",
    ),
    RuleKind.PREFERENCE: (
        "Preferences",
        "A plan that does not keep these is still valid. The answer says by how much.",
    ),
    RuleKind.ADVISORY: (
        "Advisories",
        "These forbid nothing. The answer says where to look twice.",
    ),
}
"""The kinds of rules as headings, each with what it means."""


def rule_entries() -> list[RuleAnswer]:
    """Every rule with its sentence, kind, numbers, source, and what a request may change."""
    return [
        RuleAnswer(
            rule_id=rule.rule_id,
            sentence=rule.sentence,
            unit=rule.unit,
            kind=_KIND_NAMES[rule.kind],
            default=rule.default,
            settings=[_setting(setting) for setting in rule.settings],
            source_status=rule.source.value,
            documents=[_document(citation) for citation in rule.documents],
            departs=rule.departs or None,
            asked_on_glaciers=rule.on_glaciers,
            family="request" if rule.rule_id in _ON_THE_REQUEST else "plan",
            can_be_off=rule.kind is not RuleKind.HARD,
            can_be_waived=rule.kind is RuleKind.HARD and not rule.firm,
            firm_reason=rule.firm or None,
        )
        for rule in RULES
    ]


def not_rule_entries() -> list[NotARuleAnswer]:
    """Every statement that is no rule, with the reason."""
    return [NotARuleAnswer(statement=entry.statement, reason=entry.reason) for entry in NOT_RULES]


def _document(citation: Citation) -> DocumentAnswer:
    document = citation.document
    return DocumentAnswer(
        document_id=document.document_id,
        title=document.title,
        publisher=document.publisher,
        year=document.year,
        section=citation.section or None,
        says=citation.says,
        seen=document.seen,
    )


def _setting(setting: Setting) -> SettingAnswer:
    return SettingAnswer(
        name=setting.name,
        value=setting.value,
        unit=setting.unit,
        least=setting.least,
        most=setting.most,
        whole=setting.whole,
    )


def rules_page() -> str:
    """The rulebook as one page of HTML that needs nothing else and prints on paper."""
    parts = [
        _section(title, meaning, [rule for rule in RULES if rule.kind is kind])
        for kind, (title, meaning) in KINDS.items()
    ]
    if NOT_RULES:
        rows = "".join(
            f"<tr><td>{escape(entry.statement)}</td><td>{escape(entry.reason)}</td></tr>\n"
            for entry in NOT_RULES
        )
        parts.append(
            "<h2>Practices without a rule of their own</h2>\n<table>\n"
            f"<tr><th>practice</th><th>what covers it</th></tr>\n{rows}</table>\n"
        )
    return page(
        "the rules", _INTRODUCTION.replace("<!-- deference -->", DEFERENCE) + "".join(parts)
    )


def _section(title: str, meaning: str, rules: list[Rule]) -> str:
    if not rules:
        return ""
    rows = "".join(map(_row, rules))
    return (
        f"<h2>{escape(title)}</h2>\n<p>{escape(meaning)}</p>\n<table>\n"
        "<tr><th>rule</th><th>requires</th><th>numbers</th><th>asked</th><th>source</th></tr>\n"
        f"{rows}</table>\n"
    )


def _row(rule: Rule) -> str:
    numbers = [
        f"<code>{escape(s.name)}</code> {s.value:g} {escape(s.unit)} ({s.least:g} to {s.most:g})"
        for s in rule.settings
    ] or ([escape(rule.default)] if rule.default else [])
    asked = "on glaciers" if rule.on_glaciers else "always"
    firm = f"<br><small>Firm: {escape(rule.firm)}</small>" if rule.firm else ""
    return (
        f'<tr id="{rule.rule_id}"><td><code>{rule.rule_id}</code></td>'
        f"<td>{escape(rule.sentence)}{firm}</td><td>{'<br>'.join(numbers)}</td>"
        f"<td>{asked}</td><td>{_source(rule)}</td></tr>\n"
    )


def _source(rule: Rule) -> str:
    """The status of a rule's source, its documents, and why it differs from one."""
    departs = (rule.departs,) if rule.departs else ()
    small = (*(citation.words for citation in rule.documents), *departs)
    return escape(rule.source.value) + "".join(f"<br><small>{escape(w)}</small>" for w in small)


_INTRODUCTION = """<h1>The rules</h1>
<p>Requests and plans are checked by these rules. A request may change their numbers. It may switch
off preferences and advisories, and it may waive a hard rule that is not firm, with a reason. The
answer lists every change. <!-- deference --> The glossary at <code>/docs/glossary</code> explains
the words.</p>
"""
