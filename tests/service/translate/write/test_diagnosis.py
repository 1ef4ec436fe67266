"""A diagnosis on the wire: pointers of the clash, changes with their amounts, breakages."""

from __future__ import annotations

import copy

from api_schema.plan_answer import InfeasibleAnswer
from service.translate.read.requests import read_plan_request
from service.translate.write.diagnosis import write_diagnosis
from service.translate.write.outcomes import write_outcome
from solver.diagnosis import Breakage, ChangeKind, ClashMember, Diagnosis, Remedied
from solver.outcome import Infeasible
from tests.service.one_night_out import RECORD, REQUEST
from tests.service.wire import wire

READ = read_plan_request(copy.deepcopy(REQUEST))
WHO = READ.problem.roster[0].person_id
TRIP = (("day", 1), ("step", 1), ("from_place", "a"), ("to_place", "b"))
TOLD = Diagnosis(
    clash=(
        ClashMember(
            "pack_cap_held",
            "The pack is too small.",
            (("person", WHO), *TRIP),
            needed=True,
            person_ids=(WHO,),
            amount=1_500,
            unit="g",
        ),
    ),
    none_can_be_left_out=True,
    remedies=(
        Remedied(
            (ChangeKind.CAP,),
            ("raise the pack cap by 1.5 kg",),
            (1_500,),
            ("g",),
            ((("person", WHO),),),
            is_decision=False,
            problem=READ.problem,
        ),
    ),
    tried=3,
    not_tried=2,
    broken=(Breakage("pack_cap_held", "1.5 kg over", 1_500, "g", TRIP),),
    held_fixed=("the calendar",),
)


def test_a_diagnosis_is_told_with_pointers_and_amounts():
    """Cap, person, trip, change and breakage arrive as they were found."""
    told = write_diagnosis(TOLD, READ)
    (member,) = told.clash
    assert (member.pointer, member.amount, member.is_needed) == ("/roster/0/pack_cap", 1_500, True)
    assert member.where["day"] == 1
    (helps,) = told.changes_that_help
    assert [(c.kind, c.amount, c.unit, c.about) for c in helps.changes] == [
        ("cap", 1_500, "g", {"person": WHO})
    ]
    assert (told.tried, told.not_tried, told.none_can_be_left_out) == (3, 2, True)
    assert [(one.rule_id, one.amount) for one in told.nearest_plan_breaks] == [
        ("pack_cap_held", 1_500)
    ]


def test_a_refusal_without_a_diagnosis_says_null():
    """Where nobody asked, the member is there and null; else it is the diagnosis."""
    plain = wire(write_outcome(Infeasible((), RECORD), READ))
    assert InfeasibleAnswer.model_validate(plain).diagnosis is None
    full = wire(write_outcome(Infeasible((), RECORD, TOLD), READ))
    told = InfeasibleAnswer.model_validate(full).diagnosis
    assert told is not None
    assert told.held_fixed == ["the calendar"]
