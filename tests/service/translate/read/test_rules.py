"""What a request changes of the rules is held against the rulebook, and told in the answer."""

import copy
import json
from pathlib import Path
from typing import Any

import pytest

from service.errors import RequestFaults
from service.translate.read.requests import read_plan_request
from solver.rulebook import RULES, RuleKind, Setting

SMALLEST = json.loads(
    (Path(__file__).parents[4] / "examples" / "smallest-request.json").read_text(encoding="utf-8")
)
Document = dict[str, Any]
SETTINGS = [setting for rule in RULES for setting in rule.settings]
HARD = [rule for rule in RULES if rule.kind is RuleKind.HARD]
LOOSE = [rule for rule in HARD if not rule.firm]
FIRM = [rule for rule in HARD if rule.firm]
SOFT = [rule for rule in RULES if rule.kind is not RuleKind.HARD]
WHY = "Tried with this load last season."


def asked(**rules: object) -> Document:
    """The smallest request with something said of the rules."""
    return copy.deepcopy(SMALLEST) | {"rules": rules}


def faults_of(document: Document) -> list[tuple[str, str, str]]:
    """Pointer, code and text of every fault."""
    with pytest.raises(RequestFaults) as caught:
        read_plan_request(document)
    return [(fault.pointer, fault.code, fault.detail) for fault in caught.value.faults]


def hair(setting: Setting) -> float:
    """The smallest step of a number."""
    return 1 if setting.whole else 0.01


@pytest.mark.parametrize("setting", SETTINGS, ids=lambda setting: setting.name)
def test_each_number_goes_from_its_least_to_its_most(setting):
    """A number of the rulebook may be its least and its most, and nothing beyond either."""
    for value in (setting.least, setting.most):
        rules = read_plan_request(asked(numbers={setting.name: value})).problem.rules
        assert rules.number(setting.name) == value
    pointer = f"/rules/numbers/{setting.name}"
    for value in (setting.least - hair(setting), setting.most + hair(setting)):
        ((at, code, detail),) = faults_of(asked(numbers={setting.name: value}))
        assert (at, code) == (pointer, "out_of_range")
        assert f"{setting.least:g} and {setting.most:g} {setting.unit}" in detail


@pytest.mark.parametrize(
    "setting", [s for s in SETTINGS if s.whole and s.most > s.least], ids=lambda s: s.name
)
def test_a_whole_number_has_no_fraction(setting):
    """Half of a thing that is counted is a fault at the number."""
    ((at, code, _),) = faults_of(asked(numbers={setting.name: setting.least + 0.5}))
    assert (at, code) == (f"/rules/numbers/{setting.name}", "not_whole")


@pytest.mark.parametrize("setting", SETTINGS[:1], ids=lambda setting: setting.name)
def test_a_changed_number_is_told_and_an_unchanged_one_is_not(setting):
    """The answer lists a number that differs from the rulebook's, with both."""
    other = setting.most if setting.value != setting.most else setting.least
    read = read_plan_request(asked(numbers={setting.name: other}))
    (told,) = (a for a in read.assumptions if a.pointer == f"/rules/numbers/{setting.name}")
    assert (told.value, told.source) == (f"{other:g} {setting.unit}", "given in the request")
    assert f"the rulebook has {setting.value:g} {setting.unit}" in told.what
    same = read_plan_request(asked(numbers={setting.name: setting.value}))
    assert not [a for a in same.assumptions if a.pointer.startswith("/rules/numbers")]


def test_an_unknown_number_is_a_fault_with_what_is_near_to_it():
    """A name that no rule knows is told with the names that it may have meant."""
    name = SETTINGS[0].name
    ((at, code, detail),) = faults_of(asked(numbers={name + "x": 1}))
    assert (at, code) == (f"/rules/numbers/{name}x", "unknown_id")
    assert name in detail


@pytest.mark.parametrize("value", ["2", True, None, float("nan"), float("inf")])
def test_a_number_is_a_plain_number(value):
    """Strings, flags, null and what is not finite are no numbers."""
    ((at, code, _),) = faults_of(asked(numbers={SETTINGS[0].name: value}))
    assert (at, code) == (f"/rules/numbers/{SETTINGS[0].name}", "not_a_number")


@pytest.mark.parametrize("rule", SOFT, ids=lambda rule: rule.rule_id)
def test_preferences_and_cautions_can_be_off(rule):
    """A rule that forbids nothing can be left out, which the answer tells."""
    read = read_plan_request(asked(off=[rule.rule_id]))
    assert not read.problem.asks(rule.rule_id)
    assert "/rules/off/0" in [a.pointer for a in read.assumptions]


@pytest.mark.parametrize("rule", HARD, ids=lambda rule: rule.rule_id)
def test_hard_rules_cannot_be_off(rule):
    """A hard rule cannot be left out; the fault says what can be done, or why nothing can."""
    ((at, code, detail),) = faults_of(asked(off=[rule.rule_id]))
    assert (at, code) == ("/rules/off/0", "cannot_be_off")
    assert (rule.firm or "waivers") in detail


@pytest.mark.parametrize("rule", LOOSE, ids=lambda rule: rule.rule_id)
def test_hard_rules_that_are_not_firm_can_be_cautions(rule):
    """Such a rule only warns, with the leader's reason, which the answer repeats."""
    stated = {"rule_id": rule.rule_id, "reason": WHY}
    read = read_plan_request(asked(waivers=[stated]))
    rules = read.problem.rules
    assert rules.kind_of(rule.rule_id) is RuleKind.ADVISORY
    assert rules.reason_for(rule.rule_id) == WHY
    (told,) = (a for a in read.assumptions if a.pointer.startswith("/rules/waivers"))
    assert told.value == WHY


@pytest.mark.parametrize("rule", FIRM, ids=lambda rule: rule.rule_id)
def test_firm_rules_cannot_be_cautions(rule):
    """A firm rule stays hard, and the fault says why."""
    ((at, code, detail),) = faults_of(asked(waivers=[{"rule_id": rule.rule_id, "reason": WHY}]))
    assert (at, code) == ("/rules/waivers/0/rule_id", "cannot_be_waived")
    assert rule.firm in detail


@pytest.mark.parametrize("rule", SOFT[:2], ids=lambda rule: rule.rule_id)
def test_what_forbids_nothing_cannot_be_a_caution(rule):
    """A preference or caution need not be stated as a caution, and the fault says so."""
    ((at, code, detail),) = faults_of(asked(waivers=[{"rule_id": rule.rule_id, "reason": WHY}]))
    assert (at, code) == ("/rules/waivers/0/rule_id", "cannot_be_waived")
    assert rule.kind.value in detail


@pytest.mark.parametrize(
    ("rules", "pointer", "code"),
    [
        ({"off": ["no_such_rule"]}, "/rules/off/0", "unknown_id"),
        ({"off": ["No such"]}, "/rules/off/0", "bad_id"),
        ({"off": "all"}, "/rules/off", "wrong_type"),
        (
            {"waivers": [{"rule_id": "no_such_rule", "reason": WHY}]},
            "/rules/waivers/0/rule_id",
            "unknown_id",
        ),
        ({"waivers": [{"rule_id": "fuel_spread"}]}, "/rules/waivers/0", "missing"),
        (
            {"waivers": [{"rule_id": "fuel_spread", "reason": "ok"}]},
            "/rules/waivers/0/reason",
            "too_short",
        ),
        (
            {"waivers": [{"rule_id": "fuel_spread", "reason": "x" * 301}]},
            "/rules/waivers/0/reason",
            "too_long",
        ),
        (
            {"waivers": [{"rule_id": "fuel_spread", "reason": WHY}] * 2},
            "/rules/waivers/1/rule_id",
            "duplicate_id",
        ),
    ],
)
def test_faults_of_rules_are_told_where_they_are(rules, pointer, code):
    """One thing wrong with the rules is one fault at its pointer."""
    assert [fault[:2] for fault in faults_of(asked(**rules))] == [(pointer, code)]


@pytest.mark.parametrize("reason", ["yes", "x" * 300])
def test_a_reason_has_3_to_300_characters(reason):
    """The shortest and the longest reason are taken."""
    stated = {"rule_id": "fuel_spread", "reason": reason}
    rules = read_plan_request(asked(waivers=[stated])).problem.rules
    assert rules.reason_for("fuel_spread") == reason


@pytest.mark.parametrize(
    "rule_id",
    [
        "fuel_spread",
        "kinds_kept_apart",
        "pack_volume_held",
        "sled_volume_held",
        "total_cap_held",
    ],
)
def test_the_rules_that_could_be_switched_off_can_be_cautions(rule_id):
    """What a leader could leave out before can be stated as a caution now."""
    assert rule_id in [rule.rule_id for rule in LOOSE]
