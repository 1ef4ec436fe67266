"""What binds: the cap at the peak, steps that are proven worthless, and those that help."""

from __future__ import annotations

from dataclasses import replace

from solver.model.formulation.build_frame import build_frame
from solver.model.infeasible.cap_amounts import PROBE, growth_of
from solver.model.peak_room import PeakRoom, fullest_rows
from solver.model.solvers.relaxation import build_relaxation, least_peak_bound
from solver.outcome import Limits, NoPlanInTime, Solved
from solver.pipeline import plan
from solver.problem import Problem
from solver.progress import Watch
from solver.questions import what_binds as asked
from solver.questions.changes.caps import smaller_caps
from solver.questions.what_binds import all_steps, what_binds
from solver.questions.worth import Verdict, Worth
from tests.questions.worlds import LIMITS, own_kits, watch

EXACT = replace(LIMITS, gap=0)


def worth_of(problem: Problem, clock: Watch | None = None) -> Worth:
    """What binds the plan of a problem."""
    outcome = plan(problem, EXACT)
    assert isinstance(outcome, Solved)
    return what_binds(problem, outcome.plan, outcome.peak.bound or 0, EXACT, clock or watch())


def raised(problem: Problem, who: str, more: int) -> Problem:
    """A problem with a larger pack cap of one person."""
    return replace(
        problem,
        roster=tuple(
            replace(p, caps=replace(p.caps, pack_g=p.caps.pack_g + more))
            if p.person_id == who
            else p
            for p in problem.roster
        ),
    )


def test_the_cap_at_the_peak_is_named_with_its_load():
    """Of kits of 9 and 5 kg in packs for 10 kg the first binds, on the trips with all of it."""
    worth = worth_of(own_kits(9_000, 5_000))
    assert {one.person_id for one in worth.binding} == {"m1"}
    assert {(one.cap_g, one.fraction) for one in worth.binding} == {(10_000, worth.peak)}
    assert all(9_000 <= one.load_g <= 9_040 for one in worth.binding)


def test_a_kilogram_helps_who_binds_and_nobody_else():
    """A larger pack of m1 lowers the peak to what 11 kg allow; m2's is proven worthless."""
    worth = worth_of(own_kits(9_000, 5_000))
    step = {step.text: step for step in worth.steps}
    helps = step["raise the pack cap of m1 by 1.0 kg"]
    assert helps.verdict is Verdict.LOWERS
    assert helps.proven
    assert helps.peak == -(-9_000 * 10_000 // 11_000)
    assert helps.gain == worth.peak - helps.peak
    assert step["raise the pack cap of m2 by 1.0 kg"].verdict is Verdict.SAME_PROVEN
    assert worth.steps[0].verdict is Verdict.LOWERS
    assert worth.not_tried == 0


def test_the_cap_that_sets_the_peak_is_tried_first(monkeypatch):
    """Where the last of three people sets the peak, a larger pack of theirs comes before all."""
    tried = []

    def seen(judge):
        def judged(today, change, *others):
            tried.append(change.say(1_000))
            return judge(today, change, *others)

        return judged

    for name in ("_solved", "_structural"):
        monkeypatch.setattr(asked, name, seen(getattr(asked, name)))
    worth = worth_of(own_kits(3_000, 4_000, 9_000))
    assert {one.person_id for one in worth.binding} == {"m3"}
    assert tried[0] == "raise the pack cap of m3 by 1.0 kg"


def test_nothing_short_of_names_the_cheapest_that_helps():
    """All that costs less in the field than m1's larger pack was judged, and helps nothing."""
    worth = worth_of(own_kits(9_000, 5_000))
    assert worth.nothing_short_of is not None
    assert worth.nothing_short_of.text == "raise the pack cap of m1 by 1.0 kg"
    assert not worth.nothing_lowers


def test_without_time_nothing_is_claimed():
    """With a clock that has run out steps are not tried, and nothing is said to be needed."""
    times = iter(range(0, 10**6, 60))
    short = Watch(1.0, now=lambda: float(next(times)))
    short.start()
    worth = worth_of(own_kits(9_000, 5_000), short)
    assert worth.not_tried > 0
    assert worth.nothing_short_of is None
    assert not worth.nothing_lowers


def test_room_beside_a_cap_never_bounds_higher_than_the_larger_cap():
    """The quick bound with 1 kg of room is at most the bound of the world with 1 kg more."""
    problem = own_kits(9_000, 8_500, 3_000)
    frame = build_frame(problem)
    people = ("m1", "m2", "m3")
    room = PeakRoom(frame, [growth_of(frame, raised(problem, who, PROBE)) for who in people])
    for number, who in enumerate(people):
        larger = build_relaxation(build_frame(raised(problem, who, 1_000)))
        bound = least_peak_bound(larger, seconds=10.0)
        assert bound is not None
        assert 0 < room.bound(number, 1_000) <= bound


def test_the_fullest_rows_come_first():
    """Rows are ordered by the share of the cap that a plan fills."""
    problem = own_kits(9_000, 5_000)
    outcome = plan(problem, EXACT)
    assert isinstance(outcome, Solved)
    fractions = [full.fraction for full in fullest_rows(build_frame(problem), outcome.plan)]
    assert fractions == sorted(fractions, reverse=True)
    assert fractions[0] == outcome.peak.value


def test_steps_go_up_and_down():
    """A night, a carry, a person and a cap are each among the steps."""
    texts = " ".join(step.say(1_000) for step in all_steps(own_kits(5_000, 5_000)))
    for part in ("one more carry", "one night more", "without m1", "one more person", "by 1.0 kg"):
        assert part in texts


def test_a_kilogram_less_hurts_who_binds_and_nobody_else():
    """A smaller pack of m1 raises the peak, which is proven; with a smaller one of m2 it stays."""
    worth = worth_of(own_kits(9_000, 5_000))
    step = {step.text: step for step in worth.steps}
    hurts = step["lower the pack cap of m1 by 1.0 kg"]
    assert hurts.verdict in (Verdict.RAISES, Verdict.NO_PLAN)
    same = step["lower the pack cap of m2 by 1.0 kg"]
    assert same.verdict is Verdict.SAME_PROVEN
    assert (same.peak, same.gain) == (worth.peak, 0)
    order = [one.text for one in worth.steps]
    assert order.index(same.text) < order.index(hurts.text)


def test_a_smaller_cap_gives_what_solving_again_gives():
    """Over several worlds each verdict on a smaller pack is that of a whole solve with it."""
    for masses in ((8_000, 5_000), (6_000, 6_000), (9_000, 3_000, 8_900)):
        problem = own_kits(*masses)
        worth = worth_of(problem)
        step = {step.text: step for step in worth.steps}
        for person in problem.roster:
            told = step[f"lower the pack cap of {person.person_id} by 1.0 kg"]
            again = plan(raised(problem, person.person_id, -1_000), EXACT)
            if not isinstance(again, Solved):
                assert told.verdict is Verdict.NO_PLAN
            elif again.peak.value > worth.peak:
                assert told.verdict is Verdict.RAISES
            else:
                assert (told.verdict, told.peak) == (Verdict.SAME_PROVEN, worth.peak)


def test_no_cap_is_lowered_to_nothing():
    """From a pack for one kilogram no kilogram can be taken, and the step says that."""
    problem = own_kits(500, 500, cap_g=1_000)
    (smaller,) = (
        change
        for change in smaller_caps(problem, 1_000)
        if change.say(0) == "lower the pack cap of m1 by 1.0 kg"
    )
    assert smaller.tightens
    assert smaller.apply(problem, 0) is None


def test_a_step_without_a_plan_says_why():
    """Each step that allows no plan has a reason, and no other step has one."""
    worth = worth_of(own_kits(9_500, 9_800))
    verdicts = {step.verdict for step in worth.steps}
    assert Verdict.NO_PLAN in verdicts
    for step in worth.steps:
        assert (step.reason != "") == (step.verdict is Verdict.NO_PLAN), step.text


def test_solves_that_run_over_make_no_answer_late(monkeypatch):
    """Where each solve takes 1.5 s more than it has, the answer is there in its 8 s all the same.

    A clock that is set by hand stands for the busy machine.
    """
    clock = [0.0]

    def slow(_problem: Problem, _limits: Limits, watch: Watch) -> NoPlanInTime:
        clock[0] += watch.wall_seconds + 1.5
        return NoPlanInTime(None, outcome.record)

    problem = own_kits(9_000, 5_000)
    outcome = plan(problem, EXACT)
    assert isinstance(outcome, Solved)
    time = Watch(8.0, now=lambda: clock[0])
    time.start()
    monkeypatch.setattr(asked.pipeline, "plan", slow)
    worth = what_binds(problem, outcome.plan, 0, EXACT, time)
    assert 6.0 < clock[0] <= 8.0
    assert worth.not_tried == 1


def test_what_is_known_is_told_before_each_solve():
    """At first only the caps are known; each later answer has judged more, the last is whole."""
    problem = own_kits(9_000, 5_000)
    outcome = plan(problem, EXACT)
    assert isinstance(outcome, Solved)
    told: list[Worth] = []
    bound = outcome.peak.bound or 0
    worth = what_binds(problem, outcome.plan, bound, EXACT, watch(), tell=told.append)
    assert len(told) > 1
    assert told[0].not_tried == len(worth.steps) > told[1].not_tried
    assert told[0].nothing_short_of is None
    assert not told[0].nothing_lowers
    left = [one.not_tried for one in (*told, worth)]
    assert left == sorted(left, reverse=True)
    assert {one.binding for one in told} == {worth.binding}
    assert all(len(one.steps) == len(worth.steps) for one in told)
