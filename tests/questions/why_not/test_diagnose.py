"""What a diagnosis says: the clash, the changes that help in their order, and what is left."""

from __future__ import annotations

from dataclasses import replace

from solver.diagnosis import ChangeKind
from solver.outcome import Infeasible, Solved
from solver.pipeline import plan
from solver.plan import Finding
from solver.problem import Direction, LegMode, Need, NeedKind, Reserve, ReserveKind
from solver.progress import Watch
from solver.questions import answer as asked
from solver.questions.answer import answer
from solver.questions.why_not import diagnose
from solver.questions.why_not.clash_of_request import clash_of_request
from tests.questions.worlds import LIMITS, own_kits, shared, watch


def test_a_clash_names_the_cap_and_the_kit_with_their_numbers():
    """One person's kit of 11.5 kg in a pack for 10 kg: the clash says both figures and the gap."""
    told = diagnose(own_kits(11_500, 5_000), LIMITS, watch())
    cap, *needs = told.clash
    assert (cap.rule_id, cap.person_ids, cap.amount, cap.unit) == (
        "pack_cap_held",
        ("m1",),
        1_500,
        "g",
    )
    assert "may weigh 10.0 kg" in cap.message
    assert "comes to 11.5 kg" in cap.message
    assert {unit for need in needs for unit in need.unit_ids} == {"m1/kit"}
    assert told.none_can_be_left_out


def test_changes_that_help_come_cheapest_in_the_field_first():
    """What is left at home comes before a larger cap, which comes with the least amount."""
    told = diagnose(own_kits(11_500, 5_000), LIMITS, watch())
    assert [one.kinds for one in told.remedies] == [(ChangeKind.LEAVE,), (ChangeKind.CAP,)]
    assert told.remedies[1].amounts == (1_500,)
    assert told.not_tried == 0


def test_every_change_that_is_named_helps():
    """Each changed problem of a diagnosis has a plan that passes the check."""
    told = diagnose(shared(22_000), LIMITS, watch())
    assert told.remedies
    for one in told.remedies:
        assert isinstance(plan(one.problem, LIMITS), Solved), one.texts


def test_a_carry_helps_where_a_move_is_too_heavy():
    """What is too much for one trip up goes in two, where the packs for the way home are large."""
    problem = shared(24_000, days="strip-c1 c1 c1-strip")
    at_camp = Need(NeedKind.AT_PLACE, up_to="c1", may_go_ahead=True)
    problem = replace(problem, gear=tuple(replace(i, need=at_camp) for i in problem.gear))
    home = ((LegMode.PACK, Direction.HOMEWARD, 40_000),)
    people = tuple(replace(p, caps=replace(p.caps, pack_by_leg=home)) for p in problem.roster)
    told = diagnose(replace(problem, roster=people), LIMITS, watch())
    carries = [one for one in told.remedies if one.kinds == (ChangeKind.CARRY,)]
    assert [one.about[0] for one in carries] == [(("from_place", "strip"), ("to_place", "c1"))]


def test_two_people_who_are_both_overloaded_need_a_pair_of_changes():
    """Where two kits are too heavy no change of one person helps, and the pair says both caps."""
    problem = own_kits(11_500, 12_500, 4_000)
    told = diagnose(problem, LIMITS, watch())
    alone = [one for one in told.remedies if one.about[0]]
    assert alone == []
    joint = [one for one in told.remedies if not one.about[0]]
    assert [one.amounts for one in joint] == [(2_500,)]


def test_a_pair_is_found_where_not_even_a_change_for_everybody_helps():
    """A pack short of mass and another short of room: one change of mass and one of room."""
    problem = own_kits(11_500, 4_000)
    packs = (problem.roster[0], replace(problem.roster[1], pack_volume_ml=800))
    problem = replace(
        problem,
        roster=packs,
        rules=replace(problem.rules, pack_volume_allowance_percent=0),
    )
    told = diagnose(problem, LIMITS, watch())
    assert told.remedies == ()
    (pair,) = told.pairs
    assert len(pair.texts) == 2
    assert isinstance(plan(pair.problem, LIMITS), Solved)


def test_the_nearest_plan_says_what_it_breaks_and_by_how_much():
    """Of a kit that is 1.5 kg too heavy the nearest plan breaks one cap, by 1.5 kg each trip."""
    told = diagnose(own_kits(11_500, 5_000), LIMITS, watch())
    assert {(one.rule_id, one.amount) for one in told.broken} == {("pack_cap_held", 1_500)}


def test_a_smaller_reserve_comes_last_and_is_marked():
    """Where fewer nights in reserve help, that is the leader's decision and stands last."""
    problem = shared(6_000, cap_g=5_500)
    meal = replace(problem.night_sets[0], gross_g=1_000)
    problem = replace(
        problem,
        night_sets=(meal,),
        reserves=(Reserve("c2", "g1", ReserveKind.STORM, 1, "meal"),),
    )
    told = diagnose(problem, LIMITS, watch())
    decisions = [one.is_decision for one in told.remedies]
    assert True in decisions
    assert decisions == sorted(decisions)


def test_a_budget_that_ends_counts_what_was_not_tried():
    """With a clock that runs out nothing is claimed, and the changes left over are counted."""
    times = iter(range(0, 10**6, 5))
    short = Watch(30.0, now=lambda: float(next(times)))
    short.start()
    told = diagnose(shared(22_000), LIMITS, short)
    assert told.not_tried > 0
    assert told.tried + told.not_tried >= 2


def test_a_request_that_breaks_a_rule_by_itself_is_its_own_clash():
    """The finding that is worst is told, with its amount."""
    findings = [Finding("some_rule", f"{n} too few", n, "people") for n in (1, 3)]
    (member,) = clash_of_request(findings)
    assert (member.message, member.amount, member.needed) == ("3 too few", 3, True)


def test_an_answer_brings_the_diagnosis_of_a_refusal():
    """A refusal has its diagnosis, a plan has none to have."""
    refused = answer(own_kits(11_500), LIMITS, watch())
    assert isinstance(refused, Infeasible)
    assert refused.diagnosis is not None
    assert refused.diagnosis.remedies
    assert isinstance(answer(own_kits(9_000), LIMITS, watch()), Solved)


def test_a_diagnosis_leaves_time_for_its_last_step(monkeypatch):
    """Of the 4 s that a refusal left, a diagnosis may take 3; of 20 s it leaves no more than 2."""
    given = []

    def seen(problem, limits, time):
        given.append(time.wall_seconds)
        return diagnose(problem, limits, watch())

    monkeypatch.setattr(asked, "diagnose", seen)
    monkeypatch.setattr(asked, "LEAST_SECONDS", 100.0)
    for seconds in (4.0, 20.0):
        answer(own_kits(11_500), LIMITS, Watch(seconds))
    assert given == [3.0, 18.0]
