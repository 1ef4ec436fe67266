"""The verdict of the independent check, and the heaviest load, as the wire has them."""

from __future__ import annotations

from collections.abc import Sequence

from api_schema.check_answer import (
    CheckAnswer,
    CheckedLoadAnswer,
    FindingAnswer,
    PeakAnswer,
    RemarkAnswer,
)
from api_schema.plan_check import PlanCheckAnswer
from service.translate.read.requests import ReadRequest
from service.translate.write.choices import REMARK_KINDS
from service.translate.write.common import write_assumptions, write_cautions
from service.translate.write.days import date_of
from service.translate.write.keepers import write_keepers
from service.translate.write.load_figures import WeighedLoad, loads_of, peak_of
from service.translate.write.units import kilograms, share
from solver.plan import Finding, Keeper, Plan, Remark
from solver.problem import Problem
from solver.rulebook import RULES

MOST_FINDINGS = 1000
"""As many findings, and as many remarks, go into an answer; of more only the number does."""

_OF_WHO_HAS_WHAT = {"units_ride_with_people", "sled_only_on_sled_legs", "units_conserved"}
"""What these find on a trip leads to other findings of the same trip."""

_AT_NO_TIME = 10_000
"""Stands behind every day, and every step of a day."""


def write_verdict(
    read: ReadRequest,
    plan: Plan,
    findings: Sequence[Finding],
    remarks: Sequence[Remark],
    keepers: tuple[Keeper, ...] = (),
) -> PlanCheckAnswer:
    """The verdict of the independent check on a plan that was sent, and who keeps what in it."""
    return PlanCheckAnswer(
        reference=read.reference,
        check=write_check(read.problem, findings, remarks),
        peak=write_peak(read, plan),
        loads=_write_loads(read, plan),
        keepers=write_keepers(read, keepers),
        assumptions=write_assumptions(read),
        cautions=write_cautions(read),
    )


def write_check(
    problem: Problem, findings: Sequence[Finding], remarks: Sequence[Remark]
) -> CheckAnswer:
    """What the check found, and how many rules it asked."""
    return CheckAnswer(
        passed=not findings,
        rules_checked=sum(problem.asks(rule.rule_id) for rule in RULES),
        findings=[_write_finding(finding) for finding in causes_first(findings)[:MOST_FINDINGS]],
        findings_left_out=max(0, len(findings) - MOST_FINDINGS),
        remarks=[_write_remark(remark) for remark in remarks[:MOST_FINDINGS]],
        remarks_left_out=max(0, len(remarks) - MOST_FINDINGS),
    )


def causes_first(findings: Sequence[Finding]) -> list[Finding]:
    """The findings in the order of the expedition, so that what caused others stands before them.

    What a plan says of its own figures and stock comes last: it differs because of the rest.
    """
    return sorted(findings, key=_moment_of)


def _moment_of(finding: Finding) -> tuple[bool, int, int, bool]:
    """Whether it is about a plan's own figures, then the day, the trip and the rule."""
    where = dict(finding.where)
    figures = finding.unit in {"g", "mL"} or "step" not in where
    return (
        finding.rule_id == "units_conserved" and figures,
        int(where.get("day", _AT_NO_TIME)),
        int(where.get("step", _AT_NO_TIME)),
        finding.rule_id not in _OF_WHO_HAS_WHAT,
    )


def write_peak(read: ReadRequest, plan: Plan) -> PeakAnswer | None:
    """Where a plan is heaviest; None for a plan without loads."""
    peak = peak_of(read.problem, read.timeline, plan)
    if peak is None:
        return None
    return PeakAnswer(
        load_fraction=share(peak.figures.fraction),
        person_id=peak.person_id,
        day=peak.trip.day,
        date=date_of(read.start_date, peak.trip.day),
        step=peak.trip.step,
        from_=peak.trip.from_place,
        to=peak.trip.to_place,
        binding=peak.figures.binding,
    )


def _write_loads(read: ReadRequest, plan: Plan) -> list[CheckedLoadAnswer]:
    """The loads of a plan; of a trip that was sent twice those that stand first."""
    found: dict[tuple[int, int, str, str, str], WeighedLoad] = {}
    for load in loads_of(read.problem, read.timeline, plan):
        trip = load.trip
        at = (trip.day, trip.step, trip.from_place, trip.to_place, load.person_id)
        found.setdefault(at, load)
    return [_write_load(load) for load in found.values()]


def _write_load(load: WeighedLoad) -> CheckedLoadAnswer:
    trip, figures = load.trip, load.figures
    return CheckedLoadAnswer(
        day=trip.day,
        step=trip.step,
        from_=trip.from_place,
        to=trip.to_place,
        person_id=load.person_id,
        pack_kg=kilograms(figures.pack_g),
        pack_cap_kg=kilograms(figures.pack_cap_g),
        sled_kg=kilograms(figures.sled_g),
        sled_cap_kg=kilograms(figures.sled_cap_g),
        total_kg=kilograms(figures.pack_g + figures.sled_g),
        load_limit_kg=None if figures.limit_g is None else kilograms(figures.limit_g),
        load_fraction=share(figures.fraction),
        binding=figures.binding,
    )


def _write_finding(finding: Finding) -> FindingAnswer:
    return FindingAnswer(
        rule_id=finding.rule_id,
        message=finding.message,
        amount=finding.amount,
        unit=finding.unit,
        where=dict(finding.where),
        instead=list(finding.instead),
    )


def _write_remark(remark: Remark) -> RemarkAnswer:
    finding = remark.finding
    return RemarkAnswer(
        rule_id=finding.rule_id,
        message=finding.message,
        amount=finding.amount,
        unit=finding.unit,
        where=dict(finding.where),
        instead=list(finding.instead),
        kind=REMARK_KINDS[remark.kind],
        reason=remark.reason or None,
    )
