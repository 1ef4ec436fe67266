"""Writes what plans are like beside their peak: python -m tests.benchmarks.quality_table.

It solves the five examples and three benchmark sizes with a gap of 0.1 %, has the checker replay
each plan, and writes the table into `solver/model/PLANS.md`. Names after it are solved alone, and
their rows printed.
"""

from __future__ import annotations

import json
import sys
import time
from pathlib import Path

from solver.outcome import Limits, Solved
from solver.pipeline import plan
from solver.problem import Problem
from solver.progress import Watch
from tests.benchmarks.instances import expedition, size_named
from tests.benchmarks.plan_quality import Quality, quality

ROOT = Path(__file__).parents[2]
PAGE = ROOT / "solver/model/PLANS.md"
EXAMPLES = (
    "smallest-request",
    "independent-three",
    "guided-six",
    "guided-seven",
    "guided-twelve",
)
SIZES = ("small", "medium", "large")
HEAD = (
    "| plan | peak | gap | swaps, weighted | single pieces with one carrier | loads with fuel and "
    "food | preferences broken | loads over 90 % | mean share of the least cap / of all | "
    "containers | CPU s |"
)
BEGIN, END = "<!-- table -->\n", "<!-- end -->\n"


def posed(name: str) -> tuple[Problem, Limits]:
    """The problem of an example, or of a benchmark size with seed 1, and its limits."""
    from service.translate.read.requests import read_plan_request  # noqa: PLC0415 - for this alone

    if name in SIZES:
        return expedition(size_named(name), 1), Limits(gap=10)
    document = json.loads((ROOT / f"examples/{name}.json").read_text(encoding="utf-8"))
    read = read_plan_request(document)
    return read.problem, read.limits


def row(name: str, solved: Solved, figures: Quality, seconds: float) -> str:
    """The line of one plan."""
    value = {goal.goal_id: goal.value for goal in solved.goals}
    bound = solved.peak.bound or 0
    cells = (
        name,
        f"{figures.peak / 100:.2f} %",
        f"{100 * (figures.peak - bound) / figures.peak:.2f} %",
        f"{figures.swaps}, {value['swaps']}",
        f"{figures.single_kept} of {figures.single_kit}",
        f"{figures.mixed} of {figures.loads}",
        str(value["preferences"]),
        str(figures.hard_loads),
        f"{figures.weakest:.3f} / {figures.party:.3f}",
        str(figures.containers),
        f"{seconds:.1f}",
    )
    return f"| {' | '.join(cells)} |"


def solved_row(name: str) -> str:
    """Solve one and give its line; without a plan the line says so."""
    problem, limits = posed(name)
    begun = time.process_time()
    outcome = plan(problem, limits, Watch(limits.wall_seconds))
    seconds = time.process_time() - begun
    if not isinstance(outcome, Solved):
        return f"| {name} | {type(outcome).__name__} |" + " |" * 9
    return row(name, outcome, quality(problem, outcome.plan), seconds)


def with_table(page: str, rows: list[str]) -> str:
    """The page with these rows in the place of its table."""
    before, rest = page.split(BEGIN)
    _, after = rest.split(END)
    ruler = "|" + " --- |" * HEAD.count(" | ") + " --- |"
    return before + BEGIN + "\n".join(("", HEAD, ruler, *rows, "", "")) + END + after


def main(names: list[str]) -> None:
    """Write the page, or print the rows of some."""
    if names:
        print("\n".join(map(solved_row, names)))
        return
    rows = [solved_row(name) for name in (*EXAMPLES, *SIZES)]
    PAGE.write_text(with_table(PAGE.read_text(encoding="utf-8"), rows), encoding="utf-8")


if __name__ == "__main__":
    main(sys.argv[1:])
