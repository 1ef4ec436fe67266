"""The screen of what binds a plan: the caps at the peak, and the worth of each step."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from api_schema.limits_answer import BindingLimitAnswer, LimitsThatBindAnswer, StepAnswer
from service.reports.binding_limits import trip_words
from service.screens.frame import Screen, screen
from service.screens.words import percent

_VERDICTS: Mapping[str, str] = MappingProxyType(
    {
        "lowers": "lowers the peak",
        "raises": "raises the peak",
        "same_proven": "changes nothing, proven",
        "none_found": "nothing better found",
        "no_plan": "no plan",
        "not_tried": "not tried in time",
    }
)


@dataclass(frozen=True, slots=True)
class CapLine:
    """A cap at the peak, in words and kilograms."""

    person_id: str
    rule_id: str
    trip: str
    load: str
    cap: str


@dataclass(frozen=True, slots=True)
class StepLine:
    """A step in words: what it does, the peak with it, and the gain in points of per cent."""

    text: str
    verdict: str
    peak: str
    gain: str
    reason: str


def binding_limits_screen(told: LimitsThatBindAnswer) -> Screen:
    """The page of an answer about what binds a plan."""
    return screen(
        "binding_limits.html.j2",
        title="What binds the plan",
        plan_id=told.plan_id,
        peak=percent(told.peak, 2),
        bound=percent(told.bound, 2),
        conclusion=_conclusion(told),
        caps=[_cap(one) for one in told.binding],
        steps=[_step(step) for step in told.steps],
        not_tried=told.not_tried,
        cautions=[caution.text for caution in told.cautions],
    )


def _conclusion(told: LimitsThatBindAnswer) -> str:
    if told.nothing_short_of is not None:
        return (
            f"The step that lowers the peak and costs least in the field: {told.nothing_short_of}."
        )
    if told.nothing_lowers_the_peak:
        return "No single step lowers the peak."
    return "Not every step was judged, so none is named as the one that costs least."


def _cap(one: BindingLimitAnswer) -> CapLine:
    load, cap = f"{one.load_kg:.2f} kg", f"{one.cap_kg:.2f} kg"
    return CapLine(one.person_id, one.rule_id, trip_words(one.where), load, cap)


def _step(step: StepAnswer) -> StepLine:
    gain = "–" if step.gain is None else f"{100 * step.gain:+.2f}"
    verdict = _VERDICTS[step.verdict]
    return StepLine(step.text, verdict, percent(step.peak, 2), gain, step.reason or "")
