"""The rulebook: what each rule requires, in one sentence, with kind, numbers and source."""

from __future__ import annotations

from dataclasses import replace

from solver.rulebook.caches import CACHES
from solver.rulebook.camps import CAMPS
from solver.rulebook.clothing import CLOTHING
from solver.rulebook.days import DAYS
from solver.rulebook.flights import FLIGHTS
from solver.rulebook.food import FOOD
from solver.rulebook.fuel import FUEL
from solver.rulebook.kinds import NotARule, Rule, RuleKind, Setting, SourceStatus
from solver.rulebook.ledger import LEDGER
from solver.rulebook.loads import LOADS
from solver.rulebook.losses import LOSSES
from solver.rulebook.parties import PARTIES
from solver.rulebook.preferences import PREFERENCES
from solver.rulebook.reserves import RESERVES
from solver.rulebook.sources.departures import DEPARTURES
from solver.rulebook.sources.of_living import LIVING
from solver.rulebook.sources.of_travel import TRAVEL
from solver.rulebook.waste import WASTE

_CITED = {**TRAVEL, **LIVING}


def _with_sources(rule: Rule) -> Rule:
    cited, departs = _CITED.get(rule.rule_id, ()), DEPARTURES.get(rule.rule_id, "")
    return replace(rule, documents=cited, departs=departs)


_BARE: tuple[Rule, ...] = (
    *LEDGER,
    *LOADS,
    *LOSSES,
    *CAMPS,
    *PARTIES,
    *CLOTHING,
    *PREFERENCES,
    *DAYS,
    *RESERVES,
    *FLIGHTS,
    *CACHES,
    *FOOD,
    *FUEL,
    *WASTE,
)
RULES: tuple[Rule, ...] = tuple(map(_with_sources, _BARE))
"""Every rule, with the documents that stand behind it."""

_BY_ID = {rule.rule_id: rule for rule in RULES}
_SETTINGS = {setting.name: setting for rule in RULES for setting in rule.settings}


def rule(rule_id: str) -> Rule:
    """The rule of that id; KeyError when there is none."""
    return _BY_ID[rule_id]


def setting(name: str) -> Setting:
    """The number of that name which some rule takes; KeyError when there is none."""
    return _SETTINGS[name]


__all__ = [
    "RULES",
    "NotARule",
    "Rule",
    "RuleKind",
    "Setting",
    "SourceStatus",
    "rule",
    "setting",
]
