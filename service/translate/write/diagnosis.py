"""A diagnosis as the wire has it: the clash with its pointers, changes that help, breakages."""

from __future__ import annotations

from api_schema.clash_answer import BreakageAnswer, ClashMemberAnswer
from api_schema.diagnosis_answer import ChangeAnswer, ChangesThatHelpAnswer, DiagnosisAnswer
from service.translate.read.requests import ReadRequest
from service.translate.write.conflicts import pointer_of
from solver.diagnosis import ClashMember, Diagnosis, Remedied


def write_diagnosis(diagnosis: Diagnosis, read: ReadRequest) -> DiagnosisAnswer:
    """What was found out about a request without a plan."""
    return DiagnosisAnswer(
        clash=[_member(member, read) for member in diagnosis.clash],
        none_can_be_left_out=diagnosis.none_can_be_left_out,
        held_fixed=list(diagnosis.held_fixed),
        changes_that_help=[_changes(helps) for helps in (*diagnosis.remedies, *diagnosis.pairs)],
        tried=diagnosis.tried,
        not_tried=diagnosis.not_tried,
        nearest_plan_breaks=[
            BreakageAnswer(
                rule_id=one.rule_id,
                message=one.message,
                amount=one.amount,
                unit=one.unit,
                where=dict(one.where),
            )
            for one in diagnosis.broken
        ],
    )


def _member(member: ClashMember, read: ReadRequest) -> ClashMemberAnswer:
    where = dict(member.where)
    # A requirement on one thing points to it; one on many says where it holds.
    if len(member.unit_ids) == 1:
        where["unit"] = member.unit_ids[0]
    return ClashMemberAnswer(
        rule_id=member.rule_id,
        message=member.message,
        pointer=pointer_of(member.rule_id, where, read),
        person_ids=list(member.person_ids),
        unit_ids=list(member.unit_ids),
        where=dict(member.where),
        amount=member.amount,
        unit=member.unit or None,
        is_needed=member.needed,
    )


def _changes(helps: Remedied) -> ChangesThatHelpAnswer:
    return ChangesThatHelpAnswer(
        changes=[
            ChangeAnswer(
                kind=kind.value, text=text, amount=amount, unit=unit or None, about=dict(about)
            )
            for kind, text, amount, unit, about in zip(
                helps.kinds, helps.texts, helps.amounts, helps.units, helps.about, strict=True
            )
        ],
        is_decision=helps.is_decision,
    )
