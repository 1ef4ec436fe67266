"""Facts: what the problem alone settles, whatever the plan."""

from dataclasses import replace

from solver.checker.ledger.facts import read_facts
from solver.problem import LegMode, Need, NeedKind, read_timeline
from tests.checker.replaying import burning, facts_of
from tests.rules.worlds import item, world


def test_worn_items_are_no_units():
    """What is worn is in no load and no store, everything else listed is a unit."""
    gear = (item("parka", Need(NeedKind.WORN)), item("rope"))
    facts = facts_of(gear=gear)
    assert facts.worn == {"parka"}
    assert "rope" in facts.units
    assert "parka" not in facts.units


def test_only_open_containers_change_their_weight():
    """A can of 150 mL is 205 g full, 135 g with 50 mL left, and 100 g once empty."""
    facts = read_facts(burning(100, content_ml=150, days="strip-c1 c1 c1-strip"))
    assert facts.weights(0)["g1/can"] == (205, 500)
    assert facts.weights(1)["g1/can/open-1"] == (135, 500)
    assert "g1/can/open-1" not in facts.weights(0)
    assert facts.weights(2)["g1/can/empty-1"] == (100, 500)


def test_an_item_in_use_is_one_that_must_ride_in_the_mode_of_its_use():
    """Harness on pack legs is in use on the trip; one for sled legs is not."""
    harness = item("harness", in_use_on=(LegMode.PACK,))
    trace = item("trace", in_use_on=(LegMode.SLED,))
    facts = facts_of(gear=(harness, trace))
    (up, _) = facts.timeline.trips
    assert facts.in_use(harness, up)
    assert not facts.in_use(trace, up)


def test_a_timeline_that_is_handed_on_is_not_read_again():
    """The facts hold the very timeline that was handed in, or one like it."""
    problem = world("strip-c1 c1-strip")
    timeline = read_timeline(problem)
    assert read_facts(problem, timeline).timeline is timeline
    assert read_facts(problem).timeline == timeline


def test_a_copy_with_another_problem_remembers_nothing():
    """What was worked out of the facts does not go over to a changed copy."""
    facts = facts_of()
    facts.memory[len] = "kept"
    assert replace(facts, problem=facts.problem).memory == {}
