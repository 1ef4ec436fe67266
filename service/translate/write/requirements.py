"""Requirements of a trip written as answers: whole for their own resource, short inside plans."""

from __future__ import annotations

from typing import Any

from service.translate.read.requests import ReadRequest
from service.translate.write.cautions import NOT_JUDGED
from service.translate.write.common import common_part
from solver.requirements.figures import Figure, Input, Notice
from solver.requirements.requirements import PART_NAMES, requirements

Document = dict[str, Any]

# Figures of single days and trips are most of an answer's bytes; a plan does without them.
_IN_PLANS_NEVER_ABOUT = "day"


def write_requirements(read: ReadRequest, part_names: tuple[str, ...] = PART_NAMES) -> Document:
    """The whole answer about what a trip needs; standing cautions stand with the others."""
    found = requirements(read.problem, part_names)
    common = common_part(read)
    return {
        "reference": read.reference,
        "figures": _figures(found.figures),
        "notices": [_notice(notice) for notice in found.notices if not notice.is_caution],
        "assumptions": common["assumptions"],
        "cautions": sorted(
            [*_standing(found.notices), *common["cautions"]],
            key=lambda caution: caution["caution_id"] != NOT_JUDGED,
        ),
    }


def write_in_short(read: ReadRequest) -> list[Document]:
    """The figures for a plan's answer: of places, groups, people and the trip, not single days."""
    return [
        {
            "figure_id": figure.figure_id,
            "about": dict(figure.about),
            "value": figure.value,
            "unit": figure.unit,
            "formula": figure.formula,
        }
        for figure in requirements(read.problem).figures
        if all(name != _IN_PLANS_NEVER_ABOUT for name, _ in figure.about)
    ]


def _figures(figures: tuple[Figure, ...]) -> list[Document]:
    """The figures; an input that several of them share is written once."""
    written: dict[Input, Document] = {}
    lists: dict[tuple[Input, ...], list[Document]] = {}
    documents = []
    for figure in figures:
        inputs = lists.get(figure.inputs)
        if inputs is None:
            for given in figure.inputs:
                if given not in written:
                    written[given] = _input(given)
            inputs = lists[figure.inputs] = [written[given] for given in figure.inputs]
        documents.append(
            {
                "figure_id": figure.figure_id,
                "about": dict(figure.about),
                "value": figure.value,
                "unit": figure.unit,
                "formula": figure.formula,
                "source": figure.source,
                "status": figure.status,
                "inputs": inputs,
            }
        )
    return documents


def _input(given: Input) -> Document:
    return {
        "name": given.name,
        "value": given.value,
        "unit": given.unit,
        "is_default": given.is_default,
        "source": given.source,
    }


def _notice(notice: Notice) -> Document:
    return {
        "notice_id": notice.notice_id,
        "about": dict(notice.about),
        "message": notice.message,
    }


def _standing(notices: tuple[Notice, ...]) -> list[Document]:
    """Standing cautions, each once however many places or people it is about."""
    told = dict.fromkeys((n.notice_id, n.message) for n in notices if n.is_caution)
    return [{"caution_id": notice_id, "text": text} for notice_id, text in told]
