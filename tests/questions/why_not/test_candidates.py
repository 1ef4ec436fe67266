"""Which changes are tried: those that touch every proof, at amounts that people work with."""

from __future__ import annotations

from dataclasses import replace

import pytest

from solver.diagnosis import ChangeKind, ClashMember, Reach
from solver.model.inquiry import Inquiry
from solver.progress import Watch
from solver.questions.trial import try_problem
from solver.questions.why_not.candidates import Found, all_changes, may_help
from solver.questions.why_not.pairs import cheapest_pair
from solver.questions.why_not.trying import Trials, amounts_of, remedied, rounded_up
from tests.questions.worlds import LIMITS, own_kits, shared, watch


def test_a_change_that_is_ruled_out_does_not_help():
    """Of every change that is not tried, a solve says that it gives no plan."""
    problem = own_kits(11_500, 5_000)
    clash, others = Inquiry.of(problem, LIMITS).clash(watch())
    found = Found(problem, clash, others)
    ruled_out = [
        change
        for change in all_changes(problem)
        if not change.is_measured and not may_help(change, found)
    ]
    assert ruled_out
    for change in ruled_out:
        changed = change.apply(problem, 1)
        assert changed is not None
        assert try_problem(changed, LIMITS, watch()).solvable is False, change.say(1)


def test_a_thing_must_be_in_every_proof():
    """A further proof without m1's kit rules out that leaving it would help."""
    problem = own_kits(11_500, 5_000)
    clash, _ = Inquiry.of(problem, LIMITS).clash(watch())
    (leave,) = [
        change
        for change in all_changes(problem)
        if change.kind is ChangeKind.LEAVE and change.about == (("unit", "m1/kit"),)
    ]
    assert may_help(leave, Found(problem, clash))
    elsewhere = Reach(frozenset({"m2/kit"}), frozenset({("strip", "c1")}))
    assert not may_help(leave, Found(problem, clash, (elsewhere,)))


def test_amounts_are_rounded_up_and_grow_in_steps():
    """1,520 g are tried as 1.6, 2.1 and 2.6 kg; nothing is tried at no amount."""
    change = next(c for c in all_changes(own_kits(5_000)) if c.unit == "g")
    assert list(amounts_of(change, 1_520)) == [1_600, 2_100, 2_600]
    assert rounded_up(0) == 100


def test_the_smallest_amount_that_solves_is_found():
    """22 boxes of a kilogram and 40 g of food need 2.1 kg more, found at the first amount."""
    problem = shared(22_000)
    trials = Trials(problem, LIMITS, watch())
    change = next(c for c in all_changes(problem) if c.about == (("person", "m1"),))
    amount = trials.first_that_solves(problem, change, 2_040)
    assert amount == 2_100
    told = remedied(problem, [(change, amount)])
    assert told.texts == ("raise the pack cap of m1 by 2.1 kg",)
    assert told.problem.person("m1").caps.pack_g == 12_100


def test_the_cheapest_pair_of_caps_has_what_each_needs():
    """Two kits too heavy by 1.5 and 2.5 kg: that much for each, and a plan was found."""
    problem = own_kits(11_500, 12_500, 4_000)
    changes = [c for c in all_changes(problem) if c.unit == "g" and c.about]
    made = cheapest_pair(Trials(problem, LIMITS, watch()), Inquiry.of(problem, LIMITS), changes)
    assert made is not None
    assert sorted((dict(c.about)["person"], amount) for c, amount in made) == [
        ("m1", 1_500),
        ("m2", 2_500),
    ]


def test_one_more_of_a_thing_is_tried_where_every_proof_is_about_it():
    """One more box is tried where the clash is about boxes and about no cap, and not elsewhere.

    A kit of one person is not shared, so nobody takes a second one.
    """
    problem = replace(shared(22_000), gear=(*shared(22_000).gear, *own_kits(1_000).gear))
    more = [c for c in all_changes(problem) if c.kind is ChangeKind.TAKE_MORE]
    assert [c.say(1) for c in more] == ["take 1 more of box (1.00 kg)"]
    changed = more[0].apply(problem, 1)
    assert changed is not None
    assert [item.count for item in changed.gear] == [23, 1]
    short = ClashMember("shelter_survives_loss", "", (), needed=True, unit_ids=("box",))
    elsewhere = replace(short, unit_ids=("m1/kit",))
    cap = replace(short, person_ids=("m1",), where=(("from_place", "strip"), ("to_place", "c1")))
    tried = [may_help(more[0], Found(problem, clash)) for clash in ((short,), (elsewhere,), (cap,))]
    assert tried == [True, False, False]


@pytest.mark.parametrize(("seconds", "begins"), [(0.4, False), (0.6, True)])
def test_a_trial_begins_only_with_half_a_second_left(seconds, begins):
    """A trial hears of the end between its steps only, so with less time none begins."""
    problem = own_kits(9_000)
    trials = Trials(problem, LIMITS, Watch(seconds))
    change = next(c for c in all_changes(problem) if c.kind is ChangeKind.CAP)
    assert trials.is_over is not begins
    assert (trials.first_that_solves(problem, change, 100) == 100) is begins
