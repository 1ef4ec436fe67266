"""The table of plans: figures by hand on a tiny plan, and the page's rows."""

from __future__ import annotations

from solver.outcome import Solved
from solver.pipeline import plan
from tests.benchmarks.plan_quality import quality
from tests.benchmarks.quality_table import BEGIN, END, HEAD, posed, row, with_table
from tests.rules.worlds import item, person, plan_of, world


def test_figures_of_a_plan_are_those_worked_out_by_hand():
    """A rope of 4 kg that changes hands once, 20 and 10 kg caps, bags of 10 g for each."""
    people = (person("m1"), person("m2", pack_g=10_000))
    problem = world(people=people, gear=(item("rope", mass_g=4_000),))
    loads = ({"m1": "rope", "m2": ""}, {"m1": "", "m2": "rope"})
    found = quality(problem, plan_of(problem, *loads))
    assert found.peak >= 4_000
    assert (found.swaps, found.single_kept, found.single_kit) == (1, 0, 1)
    assert found.hard_loads == found.mixed == found.containers == 0
    assert 0.2 <= found.weakest < 0.25
    assert 0.15 <= found.party < 0.2


def test_the_table_is_put_between_its_marks():
    """What stands around the marks stays, and each row has as many cells as the head."""
    page = with_table(f"before\n{BEGIN}old\n{END}after\n", ["| a |"])
    assert page.startswith(f"before\n{BEGIN}\n{HEAD}\n")
    assert page.endswith(f"| a |\n\n{END}after\n")
    assert "old" not in page
    problem, limits = posed("smallest-request")
    outcome = plan(problem, limits)
    assert isinstance(outcome, Solved)
    line = row("smallest", outcome, quality(problem, outcome.plan), 1.0)
    assert line.count("|") == HEAD.count("|")
