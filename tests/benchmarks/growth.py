"""How time and memory of ours grow with people × days × units, fitted and drawn.

Each size and seed is solved once in a process of its own. A power law is fitted to each
figure by least squares on logarithms; a figure that a run did not reach is left out of its
fit, and the table says so.
"""

from __future__ import annotations

import argparse
import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np

from solver.problem import NeedKind, Problem, read_timeline
from solver.requirements import supplies
from tests.benchmarks.growth_chart import Panel, draw
from tests.benchmarks.instances import Size, expedition
from tests.benchmarks.race_measures import Measures, best_bound, measure
from tests.benchmarks.race_table import seconds as told_seconds
from tests.benchmarks.racing import Task, machine, race


@dataclass(frozen=True)
class Point:
    """One expedition: its size as people × days × units, and what it took."""

    size: Size
    seed: int
    units: int
    row: Measures

    @property
    def volume(self) -> int:
        """People × days × units [1]."""
        return self.size.people * self.size.days * self.units


@dataclass(frozen=True)
class PowerLaw:
    """y = `factor` × x^`exponent`; `fit` is the share of the variance of log y explained."""

    factor: float
    exponent: float
    fit: float
    points: int

    def at(self, x: float) -> float:
        """The fitted value at x."""
        return float(self.factor * x**self.exponent)


FIGURES: tuple[tuple[str, str, str], ...] = (
    ("first_s", "first plan", "s"),
    ("percent_s", "plan within 1 % of the bound", "s"),
    ("per_mille_s", "plan within 0.1 % of the bound", "s"),
    ("memory_mb", "most memory", "MB"),
)


def count_units(problem: Problem) -> int:
    """All units that a trip has: items, bags, full containers, empty ones, sacks [1]."""
    needs = supplies(problem, read_timeline(problem))
    items = sum(item.count for item in problem.gear if item.need.kind is not NeedKind.WORN)
    food = sum(count for _, count in needs.bags)
    fuel = sum(count for _, count in needs.containers)
    empties = sum(len(burn.empties) for burn in needs.burns)
    return items + food + fuel + empties + len(needs.sacks)


def fit_power_law(pairs: Sequence[tuple[float, float]]) -> PowerLaw | None:
    """Least squares on logarithms; None unless three points and a factor of three in size."""
    if len(pairs) < 3 or max(x for x, _ in pairs) < 3 * min(x for x, _ in pairs):
        return None
    x, y = np.log(np.array(pairs)).T
    exponent, intercept = np.polyfit(x, y, 1)
    spread = float(((y - y.mean()) ** 2).sum())
    left = float(((y - intercept - exponent * x) ** 2).sum())
    fit = 1 - left / spread if spread else 1.0
    return PowerLaw(math.exp(float(intercept)), float(exponent), fit, len(pairs))


def laws(points: list[Point]) -> dict[str, PowerLaw | None]:
    """The power law of each figure over all points that reached it."""
    found = {}
    for name, _, _ in FIGURES:
        pairs = [(p.volume, value) for p in points if (value := getattr(p.row, name))]
        found[name] = fit_power_law(pairs)
    return found


def run_growth(sizes: list[Size], asked: argparse.Namespace) -> int:
    """Measure, fit, print, and write the table and the drawing."""
    info = machine()
    points = []
    for size in sizes:
        for seed in range(1, asked.seeds + 1):
            run = race(Task("ours", size.name, seed, asked.seconds, asked.gap, asked.memory))
            row = measure(run, best_bound([run]))
            points.append(Point(size, seed, count_units(expedition(size, seed)), row))
            print(_text_row(points[-1]), flush=True)
    found = laws(points)
    page = _page(points, found, info, asked.seconds)
    asked.out.mkdir(parents=True, exist_ok=True)
    (asked.out / "solver-growth.md").write_text(page, encoding="utf-8")
    (asked.out / "solver-growth.svg").write_text(_drawing(points, found), encoding="utf-8")
    for name, words, unit in FIGURES:
        law = found[name]
        print(f"{words} [{unit}]: {_told_law(law)}")
    print(f"written: {asked.out / 'solver-growth.md'} and .svg")
    return 0


def _told_law(law: PowerLaw | None) -> str:
    if law is None:
        return "too few points for a fit"
    return f"{law.factor:.3g} × x^{law.exponent:.2f} (R² {law.fit:.2f}, {law.points} points)"


def _cells(point: Point) -> list[str]:
    size, row = point.size, point.row
    gap = "–" if row.peak is None or not row.bound else f"{(row.peak / row.bound - 1) * 100:.2f} %"
    return [
        size.name,
        str(point.seed),
        str(size.people),
        str(size.days),
        str(point.units),
        f"{point.volume:,}".replace(",", " "),
        told_seconds(row.first_s),
        told_seconds(row.percent_s),
        told_seconds(row.per_mille_s),
        told_seconds(row.proof_s),
        gap,
        f"{row.memory_mb:.0f}",
    ]


def _text_row(point: Point) -> str:
    widths = (6, 3, 4, 4, 6, 12, 8, 8, 8, 8, 9, 6)
    return "".join(c.rjust(w) for c, w in zip(_cells(point), widths, strict=True))


def _page(
    points: list[Point],
    found: dict[str, PowerLaw | None],
    info: dict[str, str | int | float],
    limit_s: float,
) -> str:
    head = [
        "size", "seed", "people", "days", "units", "people × days × units", "first plan [s]",
        "to 1 % [s]", "to 0.1 % [s]", "proof [s]", "gap left", "memory [MB]",
    ]  # fmt: skip
    lines = [
        "# How time and memory grow",
        "",
        f"Seeded expeditions of the benchmark's sizes, {limit_s:g} s of wall time each, on two",
        f"cores, with a load of {info['load_1_min']} at the start and OR-Tools {info['ortools']}.",
        "A gap is the distance to the lower bound of the same run. A dash means that the",
        "figure was not reached in time; it is not part of the fit. Written by",
        "`bash tests/benchmarks/run.sh solver --growth`.",
        "",
        "![Time and memory against size](solver-growth.svg)",
        "",
        "| figure | with x = people × days × units |",
        "|---|---|",
        *(f"| {words} [{unit}] | {_told_law(found[name])} |" for name, words, unit in FIGURES),
        "",
        "| " + " | ".join(head) + " |",
        "|" + "---|" * len(head),
        *("| " + " | ".join(_cells(point)) + " |" for point in points),
    ]
    return "\n".join(lines) + "\n"


def _drawing(points: list[Point], found: dict[str, PowerLaw | None]) -> str:
    panels = []
    for name, words, unit in FIGURES:
        if name == "first_s":
            continue
        law = found[name]
        line: Callable[[float], float] | None = None if law is None else law.at
        told = "" if law is None else f"x^{law.exponent:.2f}"
        dots = [(p.volume, value, p.size.name) for p in points if (value := getattr(p.row, name))]
        panels.append(Panel(f"{words} [{unit}]", dots, line, told))
    return draw(panels, "people × days × units")
