"""Writes what plans are like beside their peak: python -m tests.benchmarks.quality_table.

It solves the five examples, the five benchmark sizes and twenty seeded expeditions on glaciers with
a gap of 0.1 %, has the checker replay each plan, and writes the table into `solver/model/PLANS.md`.
`--record rows.jsonl` keeps each row when it is done, and goes on from there after an interruption.
Names after it are solved alone, and their rows printed.
"""

from __future__ import annotations

import argparse
import json
import sys
import time
from collections.abc import Sequence
from dataclasses import asdict, dataclass, replace
from pathlib import Path
from statistics import mean, median

from solver.outcome import Limits, Solved
from solver.pipeline import plan
from solver.problem import Problem
from solver.progress import Watch
from tests.benchmarks.glaciers import on_glaciers
from tests.benchmarks.instances import SIZES, expedition, size_named
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
GLACIERS = tuple(f"glacier-{seed}" for seed in range(1, 21))
HEAD = (
    "| plan | peak | gap | swaps | weighted | bound | repackings | single pieces with one carrier "
    "| on the way out | people who ever carry a single piece | loads with fuel and food "
    "| preferences broken | loads over 90 % | mean share of the least cap / of all | containers "
    "| CPU s |"
)
BEGIN, END = "<!-- table -->\n", "<!-- end -->\n"
STANDARD = Limits(gap=10, hard_tolerance=50)
"""What the service asks for, too."""

SECONDS = 120.0
"""The longest that one of the larger benchmark sizes may take [s]."""


@dataclass(frozen=True)
class Row:
    """The figures of one plan, or why there is none; `gap` in per cent, `swaps_bound` weighted."""

    name: str
    figures: Quality | None = None
    gap: float = 0
    weighted: float = 0
    swaps_bound: float | None = None
    preferences: float = 0
    repackings: float | None = None
    seconds: float = 0
    without: str = ""


def posed(name: str) -> tuple[Problem, Limits]:
    """The problem of an example, a benchmark size with seed 1, or a glacier, and its limits."""
    from service.translate.read.requests import read_plan_request  # noqa: PLC0415 - for this alone

    if name in {size.name for size in SIZES}:
        return expedition(size_named(name), 1), replace(STANDARD, wall_seconds=SECONDS)
    if name in GLACIERS:
        seed = int(name.removeprefix("glacier-"))
        return on_glaciers(expedition(size_named("small"), seed)), STANDARD
    document = json.loads((ROOT / f"examples/{name}.json").read_text(encoding="utf-8"))
    read = read_plan_request(document)
    return read.problem, read.limits


def solved_row(name: str) -> Row:
    """Solve one and give its row; the work is counted, so that a busy machine changes nothing."""
    problem, limits = posed(name)
    begun = time.process_time()
    outcome = plan(problem, limits, Watch(20 * limits.wall_seconds, now=time.monotonic))
    seconds = time.process_time() - begun
    if not isinstance(outcome, Solved):
        return Row(name, seconds=seconds, without=type(outcome).__name__)
    goals = {goal.goal_id: goal for goal in outcome.goals}
    bound = outcome.peak.bound or 0
    return Row(
        name,
        figures=quality(problem, outcome.plan),
        gap=100 * (outcome.peak.value - bound) / outcome.peak.value,
        weighted=goals["swaps"].value,
        swaps_bound=goals["swaps"].bound,
        preferences=goals["preferences"].value,
        repackings=goals["repackings"].value,
        seconds=seconds,
    )


def line(row: Row) -> str:
    """A row of the table."""
    its = row.figures
    if its is None:
        return f"| {row.name} | {row.without} |" + " |" * 14
    cells = (
        row.name,
        f"{its.peak / 100:.2f} %",
        f"{row.gap:.2f} %",
        f"{its.swaps:g}",
        f"{row.weighted:g}",
        "-" if row.swaps_bound is None else f"{row.swaps_bound:g}",
        "-" if row.repackings is None else f"{row.repackings:g}",
        f"{its.single_kept:g} of {its.single_kit:g}",
        f"{its.single_kept_out:g} of {its.single_kit:g}",
        f"{its.single_people:.2f}",
        f"{its.mixed:g} of {its.loads:g}",
        f"{row.preferences:g}",
        f"{its.hard_loads:g}",
        f"{its.weakest:.3f} / {its.party:.3f}",
        f"{its.containers:g}",
        f"{row.seconds:.1f}",
    )
    return f"| {' | '.join(cells)} |"


def summed_up(rows: Sequence[Row]) -> list[Row]:
    """The mean and the median of each figure over all rows with a plan."""
    solved = [row for row in rows if row.figures is not None]
    if not solved:
        return []
    summed = []
    for word, of in (("mean", mean), ("median", median)):
        figures = [asdict(row.figures) for row in solved if row.figures is not None]
        each = {name: of([one[name] for one in figures]) for name in figures[0]}
        others = ("gap", "weighted", "preferences", "seconds")
        more = {name: of([getattr(row, name) for row in solved]) for name in others}
        bounds = [row.swaps_bound for row in solved if row.swaps_bound is not None]
        moved = [row.repackings for row in solved if row.repackings is not None]
        summed.append(
            Row(
                f"{len(solved)} of {len(rows)} glaciers, {word}",
                figures=Quality(**{name: round(value, 3) for name, value in each.items()}),
                swaps_bound=round(of(bounds), 3) if bounds else None,
                repackings=round(of(moved), 3) if moved else None,
                **{name: round(value, 3) for name, value in more.items()},
            )
        )
    return summed


def with_table(page: str, rows: Sequence[Row]) -> str:
    """The page with these rows in the place of its table."""
    before, rest = page.split(BEGIN)
    _, after = rest.split(END)
    ruler = "|" + " --- |" * HEAD.count(" | ") + " --- |"
    return before + BEGIN + "\n".join(("", HEAD, ruler, *map(line, rows), "", "")) + END + after


def all_rows(record: Path | None) -> list[Row]:
    """Every row, those of a record as they stand there and the others solved now."""
    done = {}
    if record is not None and record.exists():
        for text in record.read_text(encoding="utf-8").splitlines():
            told = json.loads(text)
            figures = told.pop("figures")
            known = Row(**told, figures=None if figures is None else Quality(**figures))
            done[known.name] = known
    for name in (*EXAMPLES, *(size.name for size in SIZES), *GLACIERS):
        if name not in done:
            done[name] = solved_row(name)
            if record is not None:
                with record.open("a", encoding="utf-8") as file:
                    file.write(json.dumps(asdict(done[name])) + "\n")
    single = [done[name] for name in (*EXAMPLES, *(size.name for size in SIZES))]
    return single + summed_up([done[name] for name in GLACIERS])


def main(arguments: Sequence[str]) -> None:
    """Write the page, or print the rows of some."""
    reader = argparse.ArgumentParser(description=__doc__)
    reader.add_argument("names", nargs="*")
    reader.add_argument("--record", type=Path)
    asked = reader.parse_args(arguments)
    if asked.names:
        sys.stdout.write("\n".join(line(solved_row(name)) for name in asked.names) + "\n")
        return
    rows = all_rows(asked.record)
    PAGE.write_text(with_table(PAGE.read_text(encoding="utf-8"), rows), encoding="utf-8")


if __name__ == "__main__":
    main(sys.argv[1:])
