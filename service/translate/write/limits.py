"""What binds a plan, as the wire has it."""

from __future__ import annotations

from api_schema.common_answer import CautionAnswer
from api_schema.limits_answer import BindingLimitAnswer, LimitsThatBindAnswer, StepAnswer
from service.translate.write.units import kilograms, share
from solver.questions.worth import Step, Worth


def write_limits(
    worth: Worth, *, plan_id: str, cautions: list[CautionAnswer]
) -> LimitsThatBindAnswer:
    """What sets the peak of a plan, and the steps."""
    return LimitsThatBindAnswer(
        plan_id=plan_id,
        cautions=cautions,
        peak=share(worth.peak),
        bound=share(worth.peak_bound),
        binding=[
            BindingLimitAnswer(
                rule_id=one.rule_id,
                person_id=one.person_id,
                where=dict(one.where),
                load_kg=kilograms(one.load_g),
                cap_kg=kilograms(one.cap_g),
                load_fraction=share(one.fraction),
            )
            for one in worth.binding
        ],
        steps=[_step(step) for step in worth.steps],
        nothing_short_of=None if worth.nothing_short_of is None else worth.nothing_short_of.text,
        nothing_lowers_the_peak=worth.nothing_lowers,
        not_tried=worth.not_tried,
    )


def _step(step: Step) -> StepAnswer:
    return StepAnswer(
        kind=step.kind.value,
        text=step.text,
        about=dict(step.about),
        verdict=step.verdict.value,
        peak=None if step.peak is None else share(step.peak),
        bound=None if step.bound is None else share(step.bound),
        gain=None if step.gain is None else share(step.gain),
        more_than_the_gap=step.proven,
        reason=step.reason or None,
    )
