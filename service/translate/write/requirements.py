"""Requirements of a trip written as answers: whole for their own resource, short inside plans."""

from __future__ import annotations

from api_schema.common_answer import CautionAnswer
from api_schema.plan_answer import ShortFigureAnswer
from api_schema.requirements_answer import (
    FigureAnswer,
    InputAnswer,
    NoticeAnswer,
    RangeAnswer,
    RequirementsAnswer,
)
from service.translate.read.requests import ReadRequest
from service.translate.write.cautions import NOT_JUDGED
from service.translate.write.common import write_assumptions, write_cautions
from solver.requirements.figures import Figure, Input, Notice
from solver.requirements.requirements import PART_NAMES, requirements

# Figures of single days and trips are most of an answer's bytes; a plan does without them.
_IN_PLANS_NEVER_ABOUT = "day"


def write_requirements(
    read: ReadRequest, part_names: tuple[str, ...] = PART_NAMES
) -> RequirementsAnswer:
    """The whole answer about what a trip needs; standing cautions stand with the others."""
    found = requirements(read.problem, part_names, timeline=read.timeline)
    return RequirementsAnswer(
        reference=read.reference,
        figures=_write_figures(found.figures),
        notices=[
            NoticeAnswer(
                notice_id=notice.notice_id, about=dict(notice.about), message=notice.message
            )
            for notice in found.notices
            if not notice.is_caution
        ],
        assumptions=write_assumptions(read),
        cautions=sorted(
            [*_standing(found.notices), *write_cautions(read)],
            key=lambda caution: caution.caution_id != NOT_JUDGED,
        ),
    )


def write_in_short(read: ReadRequest) -> list[ShortFigureAnswer]:
    """The figures for a plan's answer: of places, groups, people and the trip, not single days."""
    return [
        ShortFigureAnswer(
            figure_id=figure.figure_id,
            about=dict(figure.about),
            value=figure.value,
            unit=figure.unit,
            formula=figure.formula,
        )
        for figure in requirements(read.problem, timeline=read.timeline).figures
        if all(name != _IN_PLANS_NEVER_ABOUT for name, _ in figure.about)
    ]


def _write_figures(figures: tuple[Figure, ...]) -> list[FigureAnswer]:
    """The figures; an input that several of them share is written once."""
    written: dict[Input, InputAnswer] = {}

    def write(given: Input) -> InputAnswer:
        found = written.get(given)
        if found is None:
            found = written[given] = _write_input(given)
        return found

    return [
        FigureAnswer(
            figure_id=figure.figure_id,
            about=dict(figure.about),
            value=figure.value,
            unit=figure.unit,
            formula=figure.formula,
            source=figure.source,
            status=figure.status,
            inputs=[write(given) for given in figure.inputs],
            parts=dict(figure.parts),
            range=_write_range(figure),
        )
        for figure in figures
    ]


def _write_range(figure: Figure) -> RangeAnswer | None:
    if figure.low is None or figure.high is None:
        return None
    return RangeAnswer(low=figure.low, high=figure.high, most_uncertain=figure.most_uncertain)


def _write_input(given: Input) -> InputAnswer:
    return InputAnswer(
        name=given.name,
        value=given.value,
        unit=given.unit,
        is_default=given.is_default,
        source=given.source,
    )


def _standing(notices: tuple[Notice, ...]) -> list[CautionAnswer]:
    """Standing cautions, each once however many places or people it is about."""
    told = dict.fromkeys((n.notice_id, n.message) for n in notices if n.is_caution)
    return [CautionAnswer(caution_id=notice_id, text=text) for notice_id, text in told]
