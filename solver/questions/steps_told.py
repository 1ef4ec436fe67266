"""Steps as an answer tells them: sorted, counted, and the one that costs least in the field."""

from __future__ import annotations

from dataclasses import replace

from solver.questions.changes.change import Change
from solver.questions.worth import Binding, Step, Verdict, Worth

ONE = 1_000
"""One kilogram or one litre [g, mL]."""


def worth_of(
    peak: int,
    bound: int,
    steps: list[Change],
    told: list[Step],
    binding: tuple[Binding, ...],
) -> Worth:
    """What steps that are told in their order come to; peak and bound of today [1/10,000]."""
    lowest = next((step for step in told if step.verdict is Verdict.LOWERS), None)
    cheaper = told[: told.index(lowest)] if lowest is not None else told
    unknown = [
        step
        for step, change in zip(cheaper, steps, strict=False)
        if step.verdict is Verdict.NOT_TRIED and not change.tightens
    ]
    return Worth(
        peak=peak,
        peak_bound=bound,
        binding=binding,
        steps=tuple(sorted(told, key=_rank)),
        nothing_short_of=None if unknown else lowest,
        nothing_lowers=lowest is None and not unknown,
        not_tried=sum(step.verdict is Verdict.NOT_TRIED for step in told),
    )


def known(change: Change, judged: Step | None) -> Step:
    """A step as far as it is judged; one that is still open has not been tried."""
    if judged is None:
        return told_as(change, Verdict.NOT_TRIED)
    return replace(judged, verdict=Verdict.NOT_TRIED) if is_open(judged) else judged


def is_open(step: Step) -> bool:
    """Whether bounds alone leave it open what a step is worth."""
    return step.verdict is Verdict.NONE_FOUND and step.peak is None


def _rank(step: Step) -> tuple[int, int]:
    """The largest gain first; what is not known before what makes no difference; losses last."""
    order = (
        Verdict.LOWERS,
        Verdict.NOT_TRIED,
        Verdict.NONE_FOUND,
        Verdict.SAME_PROVEN,
        Verdict.RAISES,
        Verdict.NO_PLAN,
    )
    return order.index(step.verdict), -(step.gain or 0)


def told_as(change: Change, verdict: Verdict) -> Step:
    """A step in words with its verdict, before any figure is known."""
    amount = ONE if change.is_measured else None
    return Step(change.kind, change.say(amount or 0), change.about, amount, change.unit, verdict)
