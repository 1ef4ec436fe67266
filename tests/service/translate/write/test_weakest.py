"""The weakest of a plan as the wire has it: a sentence for each reason."""

from __future__ import annotations

from dataclasses import replace

import pytest

from service.translate.read.requests import read_plan_request
from service.translate.write.unit_labels import UnitLabels
from service.translate.write.weakest import reason_of, say_of, write_weakest
from solver.checker.queries.weak_share import HandOver, WeakShare
from tests.service.one_night_out import PLAN, REQUEST

ABOVE = WeakShare(("third",), 20_000, mean=7_000.0, party=6_500.0, own=6_000.0, tried=6)
COULD = HandOver(3, 1, "all/meal", "third", "lead")
READ = read_plan_request(REQUEST)
LABELS = UnitLabels(READ.problem, READ.names)


@pytest.mark.parametrize(
    ("found", "reason", "words"),
    [
        (replace(ABOVE, mean=6_400.0), "not_above", "is 64.0 %. The party's is 65.0 %."),
        (replace(ABOVE, own=6_600.0), "own_kit", "Own kit, water and lunch alone come to 66.0 %."),
        (
            ABOVE,
            "no_hand_over",
            "The hard rules forbid each hand-over to people with room (6 tried).",
        ),
        (
            replace(ABOVE, could_go=COULD),
            "later_goals",
            (
                '"night set meal" could go to lead on day 3, '
                "but a preference or too many swaps stand against it."
            ),
        ),
    ],
)
def test_each_reason_has_its_sentence(found: WeakShare, reason: str, words: str) -> None:
    """The first reason that holds is told, with its figures."""
    assert reason_of(found) == reason
    assert say_of(found, reason_of(found), LABELS).endswith(words)


def test_one_person_alone_is_nobody_weak() -> None:
    """Where all have the same cap there is nothing to say."""
    assert write_weakest(read_plan_request(REQUEST), PLAN) is None
