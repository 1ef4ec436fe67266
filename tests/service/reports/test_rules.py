"""The rulebook as callers and people read it: nothing is left out, and nothing is added."""

import re
from html import unescape

import pytest

from api_schema.reference import RulesAnswer
from solver.checker.request_rules import REQUEST_RULES
from solver.checker.rules import RULES as PLAN_RULES
from solver.rulebook import RULES, RuleKind
from solver.rulebook.not_rules import NOT_RULES


@pytest.fixture(scope="module")
def listed(shared_client) -> dict:
    """The answer to GET /v1/rules."""
    answer = shared_client.get("/v1/rules").json()
    RulesAnswer.model_validate(answer)
    return answer


@pytest.fixture(scope="module")
def page(shared_client) -> str:
    """The page of the rules as its reader sees it."""
    answer = shared_client.get("/docs/rules")
    assert answer.status_code == 200
    assert answer.headers["content-type"] == "text/html; charset=utf-8"
    return answer.text


@pytest.mark.parametrize("number", range(len(RULES)), ids=[rule.rule_id for rule in RULES])
def test_each_rule_is_listed_as_the_rulebook_has_it(listed, number):
    """An entry has the rule's sentence, kind, numbers and source, in the rulebook's order."""
    rule, entry = RULES[number], listed["rules"][number]
    assert (entry["rule_id"], entry["sentence"], entry["unit"], entry["default"]) == (
        rule.rule_id,
        rule.sentence,
        rule.unit,
        rule.default,
    )
    assert (entry["kind"], entry["source_status"]) == (rule.kind, rule.source)
    assert entry["asked_on_glaciers"] == rule.on_glaciers
    assert [(s["name"], s["value"], s["least"], s["most"]) for s in entry["settings"]] == [
        (s.name, s.value, s.least, s.most) for s in rule.settings
    ]


def test_all_rules_are_listed_once(listed):
    """The list is as long as the rulebook, and what is no rule is listed beside it."""
    assert len(listed["rules"]) == len(RULES)
    assert listed["not_rules"] == [
        {"statement": entry.statement, "reason": entry.reason} for entry in NOT_RULES
    ]


def test_families_are_the_checkers_registers(listed):
    """A rule is of the family in whose register of the checker it stands."""
    families = {entry["rule_id"]: entry["family"] for entry in listed["rules"]}
    for rule_id, _ in REQUEST_RULES:
        assert families[rule_id] == "request"
    for rule_id, _ in PLAN_RULES:
        assert families[rule_id] == "plan"


def test_what_may_be_changed_follows_the_kind(listed):
    """Hard rules are firm with a reason or can be cautions; all others can be off."""
    for entry in listed["rules"]:
        if entry["kind"] == RuleKind.HARD:
            assert not entry["can_be_off"]
            assert entry["can_be_waived"] == (entry["firm_reason"] is None)
        else:
            assert entry["can_be_off"]
            assert not entry["can_be_waived"]
            assert entry["firm_reason"] is None


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.rule_id)
def test_each_rule_is_on_the_page(page, rule):
    """The page has a line for the rule, found by its id, with its sentence and numbers."""
    (line,) = (line for line in page.splitlines() if f'<tr id="{rule.rule_id}">' in line)
    assert rule.sentence in unescape(line)
    assert rule.firm in unescape(line)
    for setting in rule.settings:
        assert f"{setting.value:g} {setting.unit}" in unescape(line)


def test_what_is_no_rule_is_on_the_page(page):
    """Each statement that is no rule stands on the page with its reason."""
    for entry in NOT_RULES:
        assert entry.statement in unescape(page)
        assert entry.reason in unescape(page)


def test_the_page_needs_nothing_else(page):
    """The page names no other file but the icon, and no host: it works offline and on paper."""
    text = page.replace('<link rel="icon" href="/icon.svg">', "", 1)
    assert re.findall(r"(?:src|href)=|<script|<link|@import|url\(|://", text) == []
    assert "@media print" in page
