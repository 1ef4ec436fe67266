"""The race itself in short, and the arithmetic of what it reports."""

from __future__ import annotations

import json
import math
from pathlib import Path
from xml.etree import ElementTree as ET

import pytest

from solver.rulebook.goals import GOALS
from tests.benchmarks import fairness
from tests.benchmarks.contestants import CONTESTANTS
from tests.benchmarks.growth import fit_power_law
from tests.benchmarks.growth_chart import Panel, draw
from tests.benchmarks.instances import expedition, size_named
from tests.benchmarks.race_measures import contradictions, measure, ratios
from tests.benchmarks.race_table import HEAD, line, ratio_line
from tests.benchmarks.racing import NAMES, Run, Task, Told, race
from tests.benchmarks.rosters import WARM, memory_trend, rosters, verdict
from tests.benchmarks.solver_race import arguments, main

IN_SHORT_RACE = ("ours", "textbook-cp-sat", "one-piece-highs")


def run_of(name: str, *told: tuple[float, int | None, int | None], peak: int | None = None) -> Run:
    """A run that told these times, peaks and bounds."""
    return Run(
        Task(name, "small", 1, 10.0), "plan", [Told(*each) for each in told], peak, memory_mb=100.0
    )


def test_every_contestant_has_a_name() -> None:
    """The names that may be asked for are those of the contestants, in the same order."""
    assert tuple(CONTESTANTS) == NAMES


def test_short_race_has_no_contradiction(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """On a small expedition all bounds are below all plans, and no plan breaks a rule."""
    told = tmp_path / "race.json"
    asked = [
        "--seconds",
        "2",
        "--json",
        str(told),
        "--only",
        ",".join(IN_SHORT_RACE),
    ]
    assert main(asked) == 0
    (one,) = json.loads(told.read_text())["races"]
    rows = {row["contestant"]: row for row in one["measures"]}
    assert tuple(rows) == IN_SHORT_RACE
    assert all(row["breaches"] in (0, None) for row in rows.values())
    peaks = [row["peak"] for row in rows.values() if row["peak"] is not None]
    assert all(row["bound"] <= min(peaks) for row in rows.values())
    assert all(row["memory_mb"] > 10 for row in rows.values())
    assert max(map(len, capsys.readouterr().out.splitlines())) <= 110


@pytest.mark.slow
def test_every_contestant_ends_by_itself_within_the_truth() -> None:
    """All others run as well as those of the short race, and no bound is above any plan."""
    others = [name for name in NAMES if name not in IN_SHORT_RACE]
    runs = [race(Task(name, "small", 1, 1.0)) for name in others]
    assert [run.ended for run in runs if run.ended not in ("proven", "plan", "no plan")] == []
    assert contradictions(runs) == []


def test_a_contestant_is_ended_for_its_memory() -> None:
    """A contestant that holds more than allowed is ended, and its run says why."""
    assert race(Task("textbook-cp-sat", "small", 1, 5.0, memory_mb=1)).ended == "out of memory"


def test_measures_are_read_off_what_was_told() -> None:
    """Times are those of the first plan, of 1 % and 0.1 % above the best bound, and of proof."""
    run = run_of(
        "ours", (1, 9000, 0), (2, 8080, 7000), (3, 8008, 7500), (4, None, 8000), (5, 8000, None)
    )
    row = measure(run, 8000)
    assert (row.first_s, row.percent_s, row.per_mille_s, row.proof_s) == (1, 2, 3, 5)
    assert (row.peak, row.bound, row.ended) == (8000, 8000, "proven")


def test_proof_needs_the_replayed_plan() -> None:
    """A plan that comes to more than its log said is not proven by a bound equal to the log."""
    assert measure(run_of("ours", (1, 8000, 8000), peak=8001), 8000).proof_s is None


def test_ratios_are_against_the_best_of_the_others() -> None:
    """Others at 8 and 4 s against ours at 2 s are 2×; where none arrived, the limit counts."""
    rows = [
        measure(run_of("ours", (2, 8000, 8000)), 8000),
        measure(run_of("textbook-cp-sat", (8, 8000, None)), 8000),
        measure(run_of("textbook-scip", (4, 8000, None)), 8000),
    ]
    found = ratios(rows, 10.0)
    assert found["first_s"] == (2.0, False)
    assert found["proof_s"] == (5.0, True)
    assert len(line(rows[0], 8000)) <= 110
    assert len(ratio_line(found)) <= len(HEAD) <= 110


def test_a_bound_above_a_plan_is_a_contradiction() -> None:
    """A bound of 8001 beside somebody's plan of 8000 is told, one of 8000 is not."""
    plan = run_of("ours", (1, 8000, 7000), peak=8000)
    assert contradictions([plan, run_of("textbook-scip", (1, None, 8000))]) == []
    assert contradictions([plan, run_of("textbook-scip", (1, None, 8001))]) != []


def test_unknown_contestants_are_refused() -> None:
    """A name that no contestant has ends the run before anything is measured."""
    with pytest.raises(SystemExit):
        arguments(["--only", "theirs"])


def test_power_law_is_fitted_by_least_squares() -> None:
    """Points on y = 3 x^1.5 give back 3 and 1.5; two points or one size are no fit."""
    law = fit_power_law([(x, 3 * x**1.5) for x in (10.0, 100.0, 1000.0)])
    assert law is not None
    assert math.isclose(law.factor, 3, rel_tol=1e-9)
    assert math.isclose(law.exponent, 1.5, rel_tol=1e-9)
    assert math.isclose(law.fit, 1)
    assert fit_power_law([(10.0, 1.0), (100.0, 2.0)]) is None
    assert fit_power_law([(10.0, 1.0), (10.0, 2.0), (29.0, 2.0)]) is None
    assert fit_power_law([(10.0, 1.0), (10.0, 2.0), (30.0, 2.0)]) is not None


def test_chart_is_sound_and_has_every_point() -> None:
    """The drawing is well-formed XML with one circle a point and one for each size's legend."""
    dots = [(10.0, 1.0, "small"), (200.0, 30.0, "medium"), (300.0, 40.0, "medium")]
    text = draw([Panel("time [s]", dots, lambda x: x / 5, "x^1")], "size")
    root = ET.fromstring(text)  # noqa: S314 (our own text)
    circles = [element for element in root.iter() if element.tag.endswith("circle")]
    assert len(circles) == len(dots) + 2


def test_rosters_differ_in_their_caps_alone() -> None:
    """Rosters keep everybody's ids and all else; each has caps of its own."""
    problem = expedition(size_named("small"), 1)
    drawn = list(rosters(problem, 3))
    assert len({roster.roster for roster in drawn}) == 3
    for other in drawn:
        assert [p.person_id for p in other.roster] == [p.person_id for p in problem.roster]
        assert other.gear == problem.gear


def test_memory_that_grows_is_told() -> None:
    """A megabyte more a solve on 100 MB is growth, noise of one is not; the first do not count."""
    warm = [50.0 + 10 * n for n in range(WARM)]
    assert memory_trend([*warm, *(100.0 + n for n in range(15))]) == pytest.approx(0.14)
    assert "memory grows" in verdict([*warm, *(100.0 + n for n in range(15))])
    assert "does not grow" in verdict([*warm, *(100.0 + n % 2 for n in range(15))])
    assert "too few" in verdict(warm)


def test_fairness_table_compares_with_the_plan_by_hand() -> None:
    """The saving is the share of the plan by hand that ours does without."""
    goals = dict.fromkeys((goal.goal_id for goal in GOALS), 200)
    lines = fairness.told(fairness.Compared("one", goals, goals | {"swaps": 50}))
    assert ["swaps", "200", "50", "75.0", "%"] in [line.split() for line in lines]
    assert ["repackings", "200", "200", "0.0", "%"] in [line.split() for line in lines]
    assert "no plan" in fairness.told(fairness.Compared("one", None, goals))[1]
