"""Who wishes to finish from the very beginning has an answer, and no search for a better one.

The wish is there before the solve begins, so no clock takes part.
"""

import json
from importlib import import_module
from pathlib import Path

import pytest

from service.jobs.child import solve_document
from service.jobs.child_process import JobLimits, Talk
from service.translate.read.requests import read_plan_request
from solver.checker import check
from solver.outcome import Infeasible, Limits, Outcome, Solved
from solver.problem import Problem
from solver.progress import Watch
from solver.questions.answer import answer
from tests.pipeline.tiny_worlds import tiny_world

EXAMPLES = Path(__file__).parents[2] / "examples"
LIMITS = Limits(wall_seconds=30.0, workers=1)


def finished(problem: Problem) -> tuple[Outcome, list[str]]:
    """What comes of a problem with the wish from the beginning, and the stages."""
    watch = Watch(LIMITS.wall_seconds, wish_to_finish=lambda: True)
    outcome = answer(problem, LIMITS, watch)
    return outcome, [stage for stage, _ in watch.stages]


@pytest.fixture
def bettered(monkeypatch: pytest.MonkeyPatch) -> list[object]:
    """Notes every goal that a search tries to better."""
    module = import_module("solver.model.search")
    noted: list[object] = []
    real = module.improved

    def note(goal, state, tools):
        noted.append(goal)
        return real(goal, state, tools)

    monkeypatch.setattr(module, "improved", note)
    return noted


@pytest.mark.parametrize(
    "name",
    ["smallest-request", "independent-three", "guided-six", "guided-seven", "guided-twelve"],
)
def test_an_example_finished_at_once_has_its_greedy_plan(name: str) -> None:
    """It passes the check, and nothing is done beside the greedy plan and the flights."""
    request = json.loads((EXAMPLES / f"{name}.json").read_text(encoding="utf-8"))
    problem = read_plan_request(request).problem
    outcome, stages = finished(problem)
    assert isinstance(outcome, Solved)
    assert check(problem, outcome.plan).findings == ()
    assert outcome.peak.value == outcome.greedy_peak
    assert stages == ["greedy", *(["flights"] if problem.flights else []), "check"]
    assert not outcome.record.repeatable


@pytest.mark.parametrize(
    ("seed", "found_by"), [(32, "one piece"), (55, "one piece"), (117, "packing")]
)
def test_without_a_greedy_plan_it_goes_on_until_it_has_one(
    seed: int, found_by: str, bettered: list[object]
) -> None:
    """Drawn worlds where longest first finds nothing: the first plan found is the answer."""
    problem = tiny_world(seed)
    outcome, stages = finished(problem)
    assert isinstance(outcome, Solved)
    assert outcome.greedy_peak is None
    assert check(problem, outcome.plan).findings == ()
    assert found_by in stages
    assert ("one piece" in stages) == (found_by == "one piece")
    assert bettered == []
    assert isinstance(answer(problem, LIMITS, Watch(LIMITS.wall_seconds)), Solved)
    assert bettered != []


@pytest.mark.parametrize("seed", [0, 8, 21, 29, 43, 133])
def test_what_has_no_plan_is_refused_in_full_and_without_a_diagnosis(seed: int) -> None:
    """The proof and its conflicts are the same with the wish, and the answer comes again."""
    problem = tiny_world(seed)
    outcome, _ = finished(problem)
    whole = answer(problem, LIMITS, Watch(LIMITS.wall_seconds))
    assert isinstance(outcome, Infeasible)
    assert isinstance(whole, Infeasible)
    assert outcome.conflicts == whole.conflicts
    assert outcome.diagnosis is None
    assert whole.diagnosis is not None
    assert outcome.record.repeatable


def test_the_child_hears_the_wish_once_it_has_a_plan() -> None:
    """Its document is of a plan, and no goal was searched."""
    told: list[bytes] = []
    request = (EXAMPLES / "guided-seven.json").read_bytes()
    written = solve_document(request, JobLimits(30.0, 1 << 32), Talk(told.append, lambda: True))
    assert json.loads(written)["outcome"] == "solved"
    assert [json.loads(one)["stage"] for one in told] == ["greedy", "check"]
