"""Somebody is fetched: who waits with them at the place, and what stays there so long."""

from dataclasses import replace
from functools import cache

from solver.outcome import Solved
from solver.pipeline import plan
from solver.problem import History, Purpose
from solver.rest.counted import with_counts, with_standing, without_lost_items
from solver.rest.evacuation import evacuate
from solver.rest.fetched import until_fetched
from solver.rest.hurt import How, Hurt
from solver.rest.taken import KIT_OF_A_WAIT, take_for_a_wait
from tests.rest.under_way import QUICK
from tests.rules.evacuation_worlds import SIX, camp, kit
from tests.rules.worlds import EVERY_TRIP

DAYS = "strip-c1 c1 c1 c1-strip"
AT_A_PLACE = {purpose.value for purpose in (*KIT_OF_A_WAIT, Purpose.SHELTER)}


@cache
def _camp(less: Purpose | None = None):
    """Six people at c1 in the evening of day 1, and the plan that they followed."""
    problem = camp(SIX, gear=kit(less), days=DAYS)
    first = plan(problem, QUICK)
    assert isinstance(first, Solved)
    return replace(problem, history=History(1)), first.plan


def _fetched(companions=None):
    problem, followed = _camp()
    return evacuate(problem, followed, Hurt("m1", How.FLIES, companions), QUICK)


def _known(less: Purpose | None = None):
    problem, followed = _camp(less)
    return with_standing(without_lost_items(with_counts(problem, followed)), followed)


def test_everybody_waits_and_goes_on_afterwards_with_everything():
    """Five wait with the sixth, with shelter, stove and communicator, and keep all of it."""
    found, stay = _fetched()
    wait = found.until_fetched
    assert wait is not None
    assert (wait.with_them, wait.others_go_on) == (("m2", "m3", "m4", "m5", "m6"), False)
    things = {unit: count for _, unit, count in wait.things}
    assert things.pop("g1/meal") == 6 * wait.nights
    assert set(things) == AT_A_PLACE
    assert things[Purpose.SHELTER.value] == 2
    assert (wait.taken, found.taken, wait.missing) == ({}, (), ())
    assert stay is not None
    assert stay.is_solved
    assert found.next_day == 2


def test_companions_wait_with_what_the_others_then_do_not_have():
    """Two wait with a shelter, a stove and food for two nights; the others go on without."""
    found, stay = _fetched(("m2", "m3"))
    wait = found.until_fetched
    assert wait is not None
    assert (wait.with_them, wait.others_go_on) == (("m2", "m3"), True)
    things = {unit: count for _, unit, count in wait.things}
    assert things.pop("g1/meal") == 6
    assert things == dict.fromkeys(AT_A_PLACE, 1)
    assert found.taken == wait.things
    assert stay is not None
    assert stay.problem.history is not None
    assert ("c1", "stove", -1) in [
        (one.place_id, one.unit_id, one.count) for one in stay.problem.history.changes
    ]
    assert found.staying == ("m4", "m5", "m6")


def test_what_is_not_there_for_the_wait_is_asked_of_those_who_come():
    """Two parties at one camp with one communicator between them lack another one."""
    known = _known(Purpose.COMMUNICATOR)
    there = known.roster
    few = until_fetched(known, there[:3], there, "c1", are_named=True)
    assert few.missing == ("1 more communicator",)
    assert until_fetched(known, there[:1], there, "c1", are_named=False).missing == ()
    problem, followed = _camp(Purpose.COMMUNICATOR)
    found, _ = evacuate(problem, followed, Hurt("m1", How.FLIES, ("m2", "m3")), QUICK)
    assert "1 more communicator, for the wait at c1" in found.outside


def test_who_has_no_companion_is_alone():
    """The leader named nobody, so nobody waits, and their own kit is still set aside."""
    known = _known()
    alone = until_fetched(known, known.roster[:1], known.roster, "c1", are_named=True)
    assert alone.with_them == ()
    assert ("c1", "stove", 1) in alone.things


def test_food_of_other_places_is_no_food_for_a_wait():
    """At c1 are sets for six people and three nights; at the start place are none."""
    known = _known()
    assert take_for_a_wait(known, known.roster, 0, "c1").missing == []
    elsewhere = take_for_a_wait(known, known.roster, 0, "strip")
    assert "18 night sets of cook group g1" in elsewhere.missing


def test_those_who_wait_have_a_tent_of_the_camp():
    """What is carried on every trip is lighter, and left to those who travel."""
    tent = next(item for item in kit() if item.purpose is Purpose.SHELTER)
    bag = replace(tent, item_id="bag", mass_g=1, need=EVERY_TRIP)
    problem = camp(SIX, gear=(*kit(), bag), days=DAYS)
    first = plan(problem, QUICK)
    assert isinstance(first, Solved)
    evening = replace(problem, history=History(1))
    chosen = {}
    for how in (How.FLIES, How.WALKS):
        found, _ = evacuate(evening, first.plan, Hurt("m1", how, ("m2", "m3")), QUICK)
        chosen[how] = {unit for _, unit, _ in found.taken} & {"bag", tent.unit_id}
    assert chosen == {How.FLIES: {tent.unit_id}, How.WALKS: {"bag"}}
