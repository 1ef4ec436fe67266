"""What a request changes of the rules, held against the rulebook."""

from __future__ import annotations

import difflib
from collections.abc import Iterable

from api_schema.rules import RulesRequest, WaiverRequest
from service.translate.read import defaults, quantities
from service.translate.read.notes import STATED, Notes, pointer_to
from solver.problem import RuleSettings
from solver.rulebook import RULES, Rule, RuleKind

_BY_ID = {rule.rule_id: rule for rule in RULES}
_SETTINGS = {setting.name: (rule, setting) for rule in RULES for setting in rule.settings}


def read_rules(rules: RulesRequest, notes: Notes) -> RuleSettings:
    """The settings of the rules; what is changed of them is listed with the assumptions."""
    notes.point(("rules",), "/rules")
    return RuleSettings(
        pack_volume_allowance_percent=_allowance_percent(rules, notes),
        switched_off=frozenset(_off(rules.off, notes)),
        waived=tuple(_waivers(rules.waivers, notes)),
        numbers=tuple(_numbers(rules.numbers, notes)),
    )


def _allowance_percent(rules: RulesRequest, notes: Notes) -> int:
    if rules.pack_volume_allowance is None:
        return notes.default("/rules/pack_volume_allowance", defaults.PACK_VOLUME_ALLOWANCE)
    return notes.within(
        quantities.whole_down(rules.pack_volume_allowance),
        "/rules/pack_volume_allowance",
        least=0,
        most=100,
        unit="%",
    )


def _unknown(pointer: str, what: str, given: str, known: Iterable[str], notes: Notes) -> None:
    near = difflib.get_close_matches(given, known, n=3, cutoff=0.4)
    hint = f" Near to it: {', '.join(near)}." if near else ""
    notes.fault(
        pointer,
        "unknown_id",
        f"There is no {what} {given}.{hint} GET /v1/rules lists all.",
    )


def _numbers(given: dict[str, float], notes: Notes) -> Iterable[tuple[str, float]]:
    for name, value in given.items():
        pointer = pointer_to("rules", "numbers", name)
        if name not in _SETTINGS:
            _unknown(pointer, "number of a rule", name, _SETTINGS, notes)
            continue
        rule, setting = _SETTINGS[name]
        if not setting.least <= value <= setting.most:
            notes.fault(
                pointer,
                "out_of_range",
                f"This must be between {setting.least:g} and {setting.most:g} {setting.unit}.",
            )
        elif setting.whole and not float(value).is_integer():
            notes.fault(pointer, "not_whole", f"Write a whole number of {setting.unit}.")
        else:
            yield name, value
            if value != setting.value:
                notes.assume(
                    pointer,
                    f"Changed number of the rule {rule.rule_id}; the rulebook has "
                    f"{setting.value:g} {setting.unit}.",
                    f"{value:g} {setting.unit}",
                    STATED,
                )


def _off(given: list[str], notes: Notes) -> Iterable[str]:
    for index, rule_id in enumerate(given):
        pointer = pointer_to("rules", "off", index)
        rule = _rule(rule_id, pointer, given[:index], notes)
        if rule is None:
            continue
        if rule.kind is RuleKind.HARD:
            notes.fault(
                pointer,
                "cannot_be_off",
                f"{rule_id} is a hard rule and cannot be switched off. "
                + (
                    f"It is firm: {rule.firm}."
                    if rule.firm
                    else "It can be waived, with the leader's reason, in waivers."
                ),
            )
            continue
        yield rule_id
        notes.assume(pointer, f"A {rule.kind.value} that is switched off.", rule_id, STATED)


def _waivers(given: list[WaiverRequest], notes: Notes) -> Iterable[tuple[str, str]]:
    for index, stated in enumerate(given):
        pointer = pointer_to("rules", "waivers", index, "rule_id")
        earlier = [other.rule_id for other in given[:index]]
        rule = _rule(stated.rule_id, pointer, earlier, notes)
        if rule is None:
            continue
        if rule.kind is not RuleKind.HARD:
            notes.fault(
                pointer,
                "cannot_be_waived",
                f"{rule.rule_id} is a {rule.kind.value} and forbids no plan. Name it under off "
                "to leave it out.",
            )
        elif rule.firm:
            notes.fault(
                pointer,
                "cannot_be_waived",
                f"{rule.rule_id} is firm and cannot be waived: {rule.firm}.",
            )
        else:
            yield rule.rule_id, stated.reason
            notes.assume(pointer, f"The hard rule {rule.rule_id} is waived.", stated.reason, STATED)


def _rule(rule_id: str, pointer: str, earlier: list[str], notes: Notes) -> Rule | None:
    """The rule that an entry of a list names; None, with a fault, for none or a second time."""
    if rule_id in earlier:
        notes.fault(pointer, "duplicate_id", f"{rule_id} stands here twice. Name it once.")
        return None
    if rule_id not in _BY_ID:
        _unknown(pointer, "rule", rule_id, _BY_ID, notes)
        return None
    return _BY_ID[rule_id]
