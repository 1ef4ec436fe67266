"""Why there is no plan: the clash, every single change that alone would do, the nearest plan.

Amounts come from the relaxation, which says the least that could do, and are rounded up to a step
that people work with. Each change is then made and the whole problem solved; what comes back has a
plan that the independent check passed. Where no single change helps, pairs are tried, the cheapest
first. What the time did not allow is counted.
"""

from __future__ import annotations

from dataclasses import replace

from solver.checker import RequestReport, check_plan, check_request
from solver.diagnosis import Breakage, Diagnosis, Remedied
from solver.model.infeasible.cap_amounts import PROBE
from solver.model.inquiry import Inquiry
from solver.outcome import Limits
from solver.problem import Problem
from solver.problem.faults import examine
from solver.progress import Watch
from solver.questions.changes.change import Change
from solver.questions.why_not.candidates import Found, all_changes, may_help
from solver.questions.why_not.clash_of_request import clash_of_request
from solver.questions.why_not.pairs import cheapest_pair
from solver.questions.why_not.trying import Trials, remedied

_NEAREST_SHARE = 0.2
"""What part of the time the nearest plan may take [1]."""

HELD_FIXED = ("the calendar", "what is eaten and burnt each night", "who is on the roster")
"""What no member of a clash is about."""


def diagnose(problem: Problem, limits: Limits, watch: Watch) -> Diagnosis:
    """What clashes in a problem without a plan and what would help, as far as the watch allows.

    The problem must have no faults. One thread works at a time, and each trial has so many seconds:
    a diagnosis repeats itself as long as no time runs out.
    """
    limits = replace(limits, racing=True, workers=1)
    _, timeline = examine(problem)
    request = check_request(problem, timeline)
    trials = Trials(problem, limits, watch)
    if request.findings:
        members = clash_of_request(request.findings)
        found, left_over = _singles(trials, [(change, 0) for change in all_changes(problem)])
        return Diagnosis(
            members,
            none_can_be_left_out=True,
            remedies=found,
            tried=trials.tried,
            not_tried=left_over,
        )
    inquiry = Inquiry.of(problem, limits, timeline)
    members, others = inquiry.clash(watch)
    broken = _broken(inquiry, request, watch)
    found_out = Found(problem, members, others)
    helpful = [change for change in all_changes(problem) if may_help(change, found_out)]
    found, left_over = _singles(trials, _with_amounts(inquiry, helpful, problem))
    pair = None
    if not found and not left_over:
        pair = cheapest_pair(trials, inquiry, helpful)
    return Diagnosis(
        clash=members,
        none_can_be_left_out=bool(members) and all(member.needed for member in members),
        remedies=found,
        pairs=() if pair is None else (remedied(problem, pair),),
        tried=trials.tried,
        not_tried=left_over,
        broken=broken,
        held_fixed=HELD_FIXED,
    )


def _with_amounts(
    inquiry: Inquiry, changes: list[Change], problem: Problem
) -> list[tuple[Change, int]]:
    """Changes with the least amount of each, without those of which no amount helps.

    A change for everybody stays where it asks less of each than any single person's would, and a
    change on all legs where it does with less than the one on some legs.
    """
    measured = [change for change in changes if change.is_measured]
    least = inquiry.amounts([change.apply(problem, PROBE) or problem for change in measured])
    helps = [(c, amount) for c, amount in zip(measured, least, strict=True) if amount is not None]
    helps = [
        (change, amount)
        for change, amount in helps
        if not any(_is_better(other, n, change, amount) for other, n in helps)
    ]
    others = [(change, 0) for change in changes if not change.is_measured]
    # Those of which the relaxation says an amount help nearly always, so they come first.
    return [
        pair
        for part in (helps, others)
        for pair in sorted(part, key=lambda pair: pair[0].cost(pair[1]))
    ]


def _is_better(other: Change, less: int, change: Change, amount: int) -> bool:
    """Whether another change does with no more and asks fewer people, or on fewer legs."""
    if other.unit != change.unit or less > amount or other is change:
        return False
    if change.about:
        return other.about == change.about and other.burden < change.burden
    return bool(other.about) or other.burden < change.burden


def _singles(
    trials: Trials, candidates: list[tuple[Change, int]]
) -> tuple[tuple[Remedied, ...], int]:
    """The changes that help alone, by what they cost, and how many the time did not allow."""
    found: list[tuple[tuple[int, int, int], Remedied]] = []
    for number, (change, least) in enumerate(candidates):
        amount = trials.first_that_solves(trials.problem, change, least)
        if amount is None and trials.is_over:
            return _ranked(found), len(candidates) - number
        trials.tried += 1
        if amount is not None:
            found.append((change.cost(amount), remedied(trials.problem, [(change, amount)])))
    return _ranked(found), 0


def _ranked(found: list[tuple[tuple[int, int, int], Remedied]]) -> tuple[Remedied, ...]:
    """The cheapest in the field first, the leader's decisions last."""
    ordered = sorted(found, key=lambda pair: (pair[1].is_decision, pair[0]))
    return tuple(one for _, one in ordered)


def _broken(inquiry: Inquiry, request: RequestReport, watch: Watch) -> tuple[Breakage, ...]:
    """What the nearest plan breaks, as the independent check sees it."""
    seconds = _NEAREST_SHARE * watch.left()
    time = Watch(seconds, now=watch.now, wish_to_stop=watch.should_stop)
    time.start()
    nearest = inquiry.nearest_plan(time)
    if nearest is None:
        return ()
    return tuple(
        Breakage(f.rule_id, f.message, f.amount, f.unit, f.where)
        for f in check_plan(request, nearest).findings
    )
