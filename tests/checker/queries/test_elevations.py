"""How high people sleep, and each night that is higher than all before it."""

from solver.calculators.sleeping_elevation import sleeping_rule
from solver.checker.ledger.facts import read_facts
from solver.checker.queries.elevations import Rise, number, read_sleepers, rises, threshold_m
from solver.problem import SleepingRule
from solver.rulebook import setting
from tests.rules.calendar_worlds import at_elevations, numbered
from tests.rules.food_worlds import with_conditions
from tests.rules.worlds import person, world

DAYS = "strip-c1 c1-c2-c1 c1-c2 c2-c1-strip"
TEAMS = (person("m1"), person("m2"))


def _facts(**numbers):
    problem = at_elevations(world(DAYS, people=TEAMS), 2_000, 3_000, 4_000)
    return read_facts(numbered(problem, **numbers))


def test_people_with_the_same_nights_are_one_group():
    """Both sleep at c1, c1 and c2, and were at c2 by day before the second night."""
    (both,) = read_sleepers(_facts())
    assert both.person_ids == ("m1", "m2")
    assert both.slept_m == (3_000, 3_000, 4_000)
    assert both.reached_m == (3_000, 4_000, 4_000)
    assert both.who == "m1 and 1 more"


def test_a_rise_is_a_night_above_all_before_it_and_above_the_threshold():
    """The move to c2 after two nights at c1, whose people had been as high as c2."""
    facts = _facts(sleeping_threshold_m=3_500)
    (both,) = read_sleepers(facts)
    assert list(rises(facts, both)) == [Rise(2, 3, "c1", "c2", 3_000, 4_000, 2, 4_000)]


def test_nights_at_the_threshold_are_no_rise():
    """The threshold itself is allowed."""
    facts = _facts(sleeping_threshold_m=4_000)
    (both,) = read_sleepers(facts)
    assert list(rises(facts, both)) == []


def test_a_stated_number_comes_before_a_named_rules():
    """What the request states wins, then the named rule's threshold, then the rulebook's."""
    named = with_conditions(world(DAYS), sleeping_rule=SleepingRule.CDC)
    assert threshold_m(numbered(named, sleeping_threshold_m=3_333)) == 3_333
    assert threshold_m(named) == sleeping_rule(name="cdc").threshold_m
    assert threshold_m(world(DAYS)) == setting("sleeping_threshold_m").value
    assert threshold_m(named) != threshold_m(world(DAYS))


def test_a_limit_that_the_named_rule_does_not_have_is_the_rulebooks():
    """The UIAA rule has no limit for the first night, which leaves the setting's."""
    named = with_conditions(world(DAYS), sleeping_rule=SleepingRule.UIAA)
    stated = numbered(named, sleeping_threshold_m=3_333)
    assert number(stated, "sleeping_threshold_m", "first_night_at_most_m") == 3_333
    assert number(named, "sleeping_threshold_m", "first_night_at_most_m") == 3_000
