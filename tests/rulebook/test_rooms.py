"""What the rooms of the rulebook have in common: kinds, glaciers, sources, numbers."""

from dataclasses import replace

import pytest

from solver.rulebook import RULES, RuleKind, SourceStatus
from solver.rulebook.camps import CAMPS
from solver.rulebook.clothing import CLOTHING
from solver.rulebook.flights import FLIGHTS
from solver.rulebook.losses import LOSSES
from solver.rulebook.parties import PARTIES
from solver.rulebook.preferences import PREFERENCES

ROOMS = (CAMPS, CLOTHING, FLIGHTS, LOSSES, PARTIES, PREFERENCES)


@pytest.mark.parametrize("room", ROOMS, ids=lambda room: room[0].rule_id)
def test_a_room_is_in_the_rulebook_as_it_stands(room):
    """The rulebook has each room's rules, one after the other, and adds only their documents."""
    begin = [rule.rule_id for rule in RULES].index(room[0].rule_id)
    listed = RULES[begin : begin + len(room)]
    assert tuple(replace(rule, documents=(), departs="") for rule in listed) == room


@pytest.mark.parametrize("room", ROOMS, ids=lambda room: room[0].rule_id)
def test_a_number_begins_within_its_own_bounds(room):
    """What a rule takes when the request gives no number could be given by a request."""
    numbers = [setting for rule in room for setting in rule.settings]
    assert numbers
    assert [s.name for s in numbers if not s.least <= s.value <= s.most] == []
    assert [s.name for s in numbers if s.whole and s.value % 1] == []


def test_camps_and_losses_are_rules_of_glaciers():
    """Both rooms are asked on glaciers, and what must survive a loss is hard in every one."""
    assert all(rule.on_glaciers for rule in (*CAMPS, *LOSSES))
    survive = [rule for rule in LOSSES if rule.rule_id.endswith("_survives_loss")]
    assert len(survive) >= 3
    assert {rule.kind for rule in survive} == {RuleKind.HARD}


def test_clothing_is_asked_on_glaciers():
    """The rules of clothing and sleeping kit are rules of glaciers, and hard but for advisories."""
    assert all(rule.on_glaciers for rule in CLOTHING)
    assert {rule.kind for rule in CLOTHING} == {RuleKind.HARD, RuleKind.ADVISORY}


def test_flights_are_asked_wherever_people_fly():
    """No rule of flights waits for a crevasse hazard, since aircraft know none."""
    assert not any(rule.on_glaciers for rule in FLIGHTS)


def test_a_firm_rule_is_hard():
    """Only a hard rule can be one that nobody may waive."""
    firm = [rule for rule in RULES if rule.firm]
    assert any(rule in FLIGHTS for rule in firm)
    assert {rule.kind for rule in firm} == {RuleKind.HARD}


def test_preferences_forbid_nothing():
    """No rule of that room is hard, and what the search improves is a preference."""
    assert RuleKind.HARD not in {rule.kind for rule in PREFERENCES}
    steered = [rule for rule in PREFERENCES if rule.steered]
    assert steered
    assert {rule.kind for rule in steered} == {RuleKind.PREFERENCE}


def test_parties_name_where_their_numbers_come_from():
    """Every rule of parties says whether it was read or is practice."""
    assert {rule.source for rule in PARTIES} <= set(SourceStatus)
    assert SourceStatus.READ in {rule.source for rule in PARTIES}
