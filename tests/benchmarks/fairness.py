"""Loads and hand-overs of the examples beside those of the greedy plan.

The search starts from the greedy plan, as one makes it by hand: each thing takes the least full
trip, heaviest first, then each trip is packed longest first. All figures of both plans come
from the checker, which replays them.
"""

from __future__ import annotations

import json
import time
from dataclasses import dataclass, replace
from pathlib import Path

from solver.outcome import Limits, Solved
from solver.problem import Problem

EXAMPLES = ("smallest-request.json", "independent-three.json", "guided-six.json")

GOALS = (
    ("peak_load", "largest load", 100.0, "%"),
    ("hard_days", "hard trips above 90 %", 100.0, "%"),
    ("mass_ascent", "mass carried uphill", 1e6, "t·m"),
    ("preferences", "preferences not kept", 1.0, ""),
    ("swaps", "swaps", 1.0, ""),
    ("repackings", "repackings", 1.0, ""),
)


@dataclass(frozen=True)
class Compared:
    """The goals of one example by hand and by ours; None by hand where it found no plan."""

    name: str
    by_hand: dict[str, int] | None
    ours: dict[str, int] | None


def read_example(path: Path) -> tuple[Problem, Limits]:
    """The problem that a request asks, and the limits that it asks with."""
    # Only here: the translation belongs to the service, and the race has no need of it.
    from service.translate.read.requests import read_plan_request  # noqa: PLC0415

    read = read_plan_request(json.loads(path.read_text(encoding="utf-8")))
    return read.problem, read.limits


def compare(name: str, problem: Problem, limits: Limits) -> Compared:
    """Plan an example both ways and have the checker weigh both plans."""
    # Only here: the process that watches a race is to stay small, and never loads a solver.
    from solver.checker import check  # noqa: PLC0415
    from solver.model.assignment.build_plan import build_plan  # noqa: PLC0415
    from solver.model.construction.greedy_plan import greedy_plan  # noqa: PLC0415
    from solver.model.formulation.build_frame import build_frame  # noqa: PLC0415
    from solver.pipeline import plan  # noqa: PLC0415
    from solver.progress import Watch  # noqa: PLC0415

    frame = build_frame(problem)
    by_hand = None
    draft = greedy_plan(frame, limits, Watch(50.0)).draft
    if draft is not None:
        report = check(problem, build_plan(frame, draft))
        if not report.findings:
            by_hand = dict(report.goals)
    outcome = plan(problem, limits, Watch(limits.wall_seconds, now=time.monotonic))
    ours = dict(check(problem, outcome.plan).goals) if isinstance(outcome, Solved) else None
    return Compared(name, by_hand, ours)


def told(compared: Compared) -> list[str]:
    """The table of one example."""
    lines = [f"{compared.name:<32}{'by hand':>14}{'ours':>14}{'less by':>10}"]
    for goal_id, words, scale, unit in GOALS:
        hand = None if compared.by_hand is None else compared.by_hand[goal_id]
        own = None if compared.ours is None else compared.ours[goal_id]
        less = f"{100 * (hand - own) / hand:.1f} %" if hand and own is not None else "–"
        amounts = [_amount(value, scale, unit) for value in (hand, own)]
        lines.append(f"  {words:<30}{amounts[0]:>14}{amounts[1]:>14}{less:>10}")
    return lines


def _amount(value: int | None, scale: float, unit: str) -> str:
    if value is None:
        return "no plan"
    number = f"{value}" if scale == 1 else f"{value / scale:.2f}"
    return f"{number} {unit}".rstrip()


def run_fairness(folder: Path, seconds: float) -> int:
    """Print the tables; 1 when ours has a larger peak than the plan by hand, or none."""
    bad = 0
    for name in EXAMPLES:
        problem, limits = read_example(folder / name)
        compared = compare(name, problem, replace(limits, wall_seconds=seconds))
        print(*told(compared), "", sep="\n", flush=True)
        if compared.ours is None:
            bad += 1
        elif compared.by_hand is not None:
            bad += compared.ours["peak_load"] > compared.by_hand["peak_load"]
    return 1 if bad else 0
