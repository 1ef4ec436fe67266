"""Refusals name what was tightened: a short form of `python -m tests.pipeline.overtightened`."""

import pytest

from solver.outcome import Infeasible, RemedyKind
from solver.pipeline import plan
from tests.pipeline.overtightened import KINDS, LIMITS, fault_of, tightened

SEEDS = 24


@pytest.mark.parametrize("kind", range(len(KINDS)))
def test_what_a_refusal_names_is_what_alone_helps(kind: int) -> None:
    """Of six seeded problems of a kind each names the person, trip or group that was tightened.

    The amount told brings a plan back; ten times as much of everything else does not.
    """
    seeds = range(kind, SEEDS, len(KINDS))
    assert [told for seed in seeds if (told := fault_of(seed)) is not None] == []


def test_what_helps_two_full_trips_at_once_is_what_is_told() -> None:
    """Each of two trips lacks 800 g by itself, and together they need a little more on both."""
    case = tightened(181)
    outcome = plan(case.problem, LIMITS)
    assert isinstance(outcome, Infeasible)
    conflict = outcome.conflicts[0]
    raised = next(r for r in conflict.remedies if r.kind is RemedyKind.RAISE)
    assert conflict.amount == 800
    assert raised.amount is not None
    assert 800 < raised.amount <= 820
    assert "at least" not in raised.text
    assert isinstance(plan(case.help_by(case.problem, 800), LIMITS), Infeasible)
    assert fault_of(181) is None


def test_the_check_of_names_can_fail(monkeypatch: pytest.MonkeyPatch) -> None:
    """A refusal that names somebody else, or too small an amount, is seen as wrong."""
    case = tightened(0)
    outcome = plan(case.problem, LIMITS)
    assert isinstance(outcome, Infeasible)
    assert case.kind == "own cap"
    told = {"rule": "pack_cap_held", "person": dict(case.names)["person"]}
    for names, amount, words in (
        (told | {"person": "somebody"}, 10_000, "wanted"),
        (told, 1, "is not enough"),
    ):
        answer = (names, amount)
        monkeypatch.setattr("tests.pipeline.overtightened._told", lambda _, it=answer: it)
        assert words in (fault_of(0) or "")
