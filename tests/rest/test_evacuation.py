"""Somebody goes down and the others stay: who, with what, and one ledger for both parties."""

from collections import Counter
from dataclasses import replace
from functools import cache
from importlib import import_module

import pytest

from solver.checker.parted import parted_findings
from solver.errors import WithheldPlanError
from solver.model.construction.greedy_plan import GreedyPlan
from solver.outcome import Solved
from solver.pipeline import plan
from solver.problem import History, Purpose, Sled
from solver.progress import Watch
from solver.rest.counted import with_counts, with_standing, without_lost_items
from solver.rest.evacuation import evacuate
from solver.rest.hurt import How, Hurt
from solver.rest.taken import nights_of_food
from solver.rest.two_parties import limit_of_hurt, who_goes_down
from tests.rest.under_way import QUICK
from tests.rules.evacuation_worlds import GUIDED_SIX, SIX, camp, kit

DAYS = "strip-c1 c1 c1 c1-strip"


@cache
def _camp(less: Purpose | None = None, *, guided: bool = False):
    """Six people at c1 in the evening of day 1, and the plan that they followed."""
    people = GUIDED_SIX if guided else SIX
    problem = camp(people, gear=kit(less), days=DAYS)
    first = plan(problem, QUICK)
    assert isinstance(first, Solved)
    return replace(problem, history=History(1)), first.plan


def _down(who="m1", how=How.WALKS, less=None, *, guided=False, **more):
    problem, followed = _camp(less, guided=guided)
    return evacuate(problem, followed, Hurt(who, how, **more), QUICK)


def test_three_go_down_and_three_stay():
    """Both have a plan; those who leave take one of each kind and food for two nights."""
    found, stay = _down()
    assert found.leaving == ("m1", "m2", "m3")
    assert found.staying == ("m4", "m5", "m6")
    assert found.is_possible
    assert stay is not None
    assert stay.is_solved
    taken = {unit: count for _, unit, count in found.taken}
    assert taken.pop("g1/meal") == 6
    assert taken.pop("rescue_kit") == 2
    assert set(taken.values()) == {1}
    assert (found.missing, found.outside, found.left_behind) == ((), (), ())


def test_a_wish_to_finish_leaves_each_party_its_plan(monkeypatch):
    """The first party's plan does not end the search for the other's, which has none yet.

    Neither has a greedy plan here, so each search goes on to its first plan, and hears then.
    """
    none = GreedyPlan(None, None)
    monkeypatch.setattr(import_module("solver.model.search"), "greedy_plan", lambda *_: none)
    problem, followed = _camp()
    watch = Watch(QUICK.wall_seconds, wish_to_finish=lambda: True)
    found, stay = evacuate(problem, followed, Hurt("m1", How.WALKS), QUICK, watch)
    assert found.down is not None
    assert stay is not None
    assert (found.down.is_solved, stay.is_solved) == (True, True)
    assert not found.down.outcome.record.repeatable
    assert not stay.outcome.record.repeatable


def test_both_plans_move_only_what_their_party_has():
    """What is loaded on the trips to come of both parties together is no more than there was."""
    found, stay = _down()
    problem, followed = _camp()
    known = with_standing(without_lost_items(with_counts(problem, followed)), followed)
    assert known.history is not None
    there = Counter({s.unit_id: s.count for s in known.history.standing if s.place_id == "c1"})
    moved = Counter()
    for rest in (found.down, stay):
        assert rest is not None
        assert isinstance(rest.outcome, Solved)
        out = [trip for trip in rest.outcome.plan.trips if trip.day > 1]
        for trip in out:
            for load in trip.loads:
                moved.update({s.unit_id: s.count for s in (*load.pack, *load.sled)})
    assert moved <= there


def test_the_checker_sees_what_two_parties_have_too_much_or_too_little():
    """A bag that both take, or that nobody has, is a finding with its place and amount."""
    found, _ = _down()
    problem, followed = _camp()
    assert found.down is not None
    whole = without_lost_items(problem)
    assert parted_findings(whole, (problem,), followed, {}) == ()
    [more] = parted_findings(whole, (problem,), followed, {("c1", "g1/meal"): 2})
    assert (more.rule_id, more.amount, dict(more.where)["place"]) == ("units_conserved", 2, "c1")
    assert parted_findings(whole, (), followed, {}) != ()


def test_a_slip_in_sharing_out_is_withheld(monkeypatch):
    """If the two problems did not add up, no plan would come out."""
    monkeypatch.setattr("solver.rest.evacuation.less", lambda problem, _: problem)
    with pytest.raises(WithheldPlanError):
        _down()


def test_what_is_not_there_twice_is_asked_of_help_from_outside():
    """With one stove for six, another one would have to be brought."""
    found, _ = _down(less=Purpose.STOVE)
    assert found.missing == ("1 more stove",)
    assert found.outside == ("1 more stove, so that there can be two parties",)


def test_a_guide_goes_along_and_one_stays():
    """On a guided expedition each party has its guide."""
    found, stay = _down("c-1", guided=True)
    assert sum(name.startswith("guide") for name in found.leaving) == 1
    assert sum(name.startswith("guide") for name in found.staying) == 1
    assert stay is not None


def test_where_two_parties_cannot_be_made_everybody_goes():
    """Two people are two too few for one hurt with two companions and one who stays."""
    problem, _ = _camp()
    ill, there = problem.roster[0], problem.roster[:2]
    leaving, missing = who_goes_down(problem, ill, there)
    assert [p.person_id for p in leaving] == ["m1", "m2"]
    assert missing == ("2 people more",)


def test_somebody_who_is_fetched_leaves_the_others_with_the_rest():
    """No days down, no limit, no kit taken; five stay and have a plan."""
    found, stay = _down(how=How.FLIES)
    assert (found.leaving, found.taken, found.down) == (("m1",), (), None)
    assert found.limit is None
    assert not found.is_possible
    assert found.outside == ("an aircraft, or a rescue team with a litter, at c1 for m1",)
    assert stay is not None
    assert stay.is_solved


def test_those_who_leave_take_the_kit_of_their_own_rope_team():
    """Rope team r2 leaves with what is listed for r2, though that of r1 is lighter."""
    gear = tuple(
        replace(item, item_id=f"{item.item_id}.{team}", count=item.count // 2, **more)
        for item in kit()
        for team, more in (
            ("r1", {"rope_team_id": "r1"}),
            ("r2", {"rope_team_id": "r2", "mass_g": 20}),
        )
        if item.purpose in (Purpose.ROPE, Purpose.RESCUE_KIT, Purpose.MEDICAL_KIT)
    )
    listed = {item.purpose for item in gear}
    gear += tuple(item for item in kit() if item.purpose not in listed)
    problem = replace(camp(SIX, gear=gear, days=DAYS), history=History(1))
    first = plan(replace(problem, history=None), QUICK)
    assert isinstance(first, Solved)
    found, stay = evacuate(problem, first.plan, Hurt("m4", How.WALKS), QUICK)
    assert found.leaving == ("m4", "m5", "m6")
    taken = {unit: count for _, unit, count in found.taken}
    own = {unit: count for unit, count in taken.items() if unit.endswith((".r1", ".r2"))}
    assert own == {"rope.r2": 1, "rescue_kit.r2": 2, "medical_kit.r2": 1}
    assert stay is not None
    assert stay.is_solved


def test_who_is_hauled_is_shared_by_those_who_go_along():
    """85 kg, 8 kg of their own, 6 kg of litter and a sled of 5 kg by two: 52 kg each."""
    haulers = [replace(p, caps=replace(p.caps, sled_g=60_000, total_g=70_000)) for p in SIX]
    sled = Sled("s1", "m2", 5_000, 60_000, 200_000)
    problem = camp(tuple(haulers), days=DAYS, sleds=(sled,))
    first = plan(problem, QUICK)
    assert isinstance(first, Solved)
    under_way = replace(problem, history=History(1))
    found, _ = evacuate(under_way, first.plan, Hurt("m1", How.HAULED), QUICK)
    assert found.haul is not None
    assert found.haul.share_g == 52_000
    assert found.haul.cannot == ()
    assert found.is_possible
    assert found.down is not None
    caps = {p.person_id: p.caps for p in found.down.problem.roster}
    leg = under_way.route.legs[0]
    assert {cap for mode, _, cap in caps["m2"].pack_by_leg if mode is leg.mode} == {18_000}


def test_nobody_is_hauled_where_no_sled_goes():
    """On a pack leg a rescue team or an aircraft is needed, and the answer names the leg."""
    found, _ = _down(how=How.HAULED)
    assert found.haul is not None
    assert "c1 to strip: no sled can go there" in found.haul.cannot
    assert not found.is_possible
    assert any("c1 to strip" in words for words in found.outside)


def test_somebody_hurt_carries_what_keeps_them_alive():
    """The rule's 8 kg, or what the caller gives; never less than vital kit, water and lunch."""
    problem, _ = _camp()
    person = problem.roster[0]
    by_rule = limit_of_hurt(problem, person)
    assert (by_rule.most_g, by_rule.why) == (8_000, "no limit is given, and the rule says so")
    given = replace(person, load_limit_g=3_000, load_limit_reason="ankle")
    by_caller = limit_of_hurt(problem, given)
    assert by_caller.most_g == 3_000
    assert by_caller.why == "the given limit (ankle); without it, the rule says 8 kg"
    by_need = limit_of_hurt(problem, replace(person, water_g=9_000))
    assert by_need.most_g == 9_000
    assert by_need.why == "what keeps a person alive; the rule says 8 kg, which is less"


def test_food_is_for_the_way_and_at_least_for_the_nights_of_the_rule():
    """Tonight and two nights for a way of one day, three for one of four days."""
    problem, _ = _camp()
    assert nights_of_food(problem, problem.calendar.days[:1]) == 1 + 2
    assert nights_of_food(problem, problem.calendar.days) == 1 + 3
    morning = replace(problem, history=History(1, after_night=True))
    assert nights_of_food(morning, problem.calendar.days[:1]) == 2
