"""What the rules of glaciers cost our solver: with none of them and with every rule, side by side.

The first line of each pair is the expedition as the race has it: no leg tells a crevasse hazard,
so that the rules of glaciers are not asked. The second is the same expedition on a glacier, with
what those rules ask for: no rule is switched off. Gaps are to the run's own bound, since the two
are different problems.
"""

from __future__ import annotations

from statistics import median

from tests.benchmarks.instances import Size
from tests.benchmarks.race_measures import Measures, best_bound, measure
from tests.benchmarks.race_table import HEAD, line
from tests.benchmarks.racing import EVERY_RULE, Task, race

BOTH = ("ours", EVERY_RULE)
GAP = 10
"""Where both may stop, as the service does [1/10,000]."""

ABOUT = """\
Ours without the rules of glaciers (ours) and with every rule of the rulebook (ours, every rule), on
the same expeditions, one after the other; times from the problem to the plan, in seconds, to the
run's own bound. Times of the request's own check and of the checker are not among them."""


def rule_cost_of(size: Size, seed: int, seconds: float, memory_mb: int) -> list[Measures]:
    """Both runs on one expedition; the second is empty-handed where no plan keeps every rule."""
    runs = [race(Task(name, size.name, seed, seconds, GAP, memory_mb)) for name in BOTH]
    return [measure(run, best_bound([run])) for run in runs]


def wrong_in(rows: list[Measures]) -> list[str]:
    """Runs that ended without a plan, or with one that breaks a rule."""
    return [
        f"{row.contestant}: {row.ended}, {row.breaches or 0} rules broken"
        for row in rows
        if row.breaches or row.peak is None
    ]


def told(size: Size, seed: int, rows: list[Measures]) -> str:
    """Both runs on one expedition, as a table."""
    name = f"{size.name}, seed {seed}: {size.people} people, {size.days} days"
    lines = [line(row, row.bound) for row in rows]
    times = [row.per_mille_s for row in rows]
    if all(times):
        lines.append(f"  every rule ÷ none, to 0.1 %: {(times[1] or 0) / (times[0] or 1):.1f}×")
    return "\n".join([name, HEAD, *lines])


def told_medians(size: Size, races: list[list[Measures]]) -> str:
    """The medians of one size over its seeds."""
    cells = []
    for number, name in enumerate(BOTH):
        times = [rows[number].per_mille_s or float("inf") for rows in races]
        memory = median(rows[number].memory_mb for rows in races)
        cells.append(f"{name}: {median(times):.2f} s to 0.1 %, {memory:.0f} MB")
    return f"{size.name}, medians of {len(races)} seeds: {'; '.join(cells)}"


def run_rules_cost(sizes: list[Size], seeds: int, seconds: float, memory_mb: int) -> int:
    """Print both for every size and seed; 1 when one of them has no plan or a wrong one."""
    print("", ABOUT, sep="\n", flush=True)
    wrong: list[str] = []
    for size in sizes:
        races = []
        for seed in range(1, seeds + 1):
            rows = rule_cost_of(size, seed, seconds, memory_mb)
            races.append(rows)
            print("", told(size, seed, rows), sep="\n", flush=True)
            wrong += wrong_in(rows)
        if seeds > 1:
            print("", told_medians(size, races), sep="\n", flush=True)
    print(*wrong, sep="\n", end="\n" if wrong else "")
    return 1 if wrong else 0
