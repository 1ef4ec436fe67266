"""Where the hand-packing heuristic finds a plan: python -m tests.benchmarks.hand_packing.

It packs the five examples, and seeded expeditions of three sizes with and without glaciers, with
the heuristic alone. The checker replays every plan. A world that has no plan at all, by the linear
program of the relaxation, does not count. For every other world without a plan the reason is
printed.
"""

from __future__ import annotations

import argparse
import json
import sys
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from solver.checker import check
from solver.model.assignment.build_plan import build_plan
from solver.model.construction.greedy_plan import greedy_plan
from solver.model.flights.solve_flights import solve_flights
from solver.model.formulation.build_frame import build_frame
from solver.model.formulation.redundant_losses import without_redundant_losses
from solver.model.solvers.relaxation import build_relaxation
from solver.model.solvers.relaxed_plans import relaxed_plans
from solver.outcome import Limits
from solver.problem import Problem
from solver.progress import Watch
from tests.benchmarks.glaciers import on_glaciers
from tests.benchmarks.instances import expedition, size_named

ROOT = Path(__file__).parents[2]
EXAMPLES = (
    "smallest-request",
    "independent-three",
    "guided-six",
    "guided-seven",
    "guided-twelve",
)
SIZES = ("small", "medium", "large")
SECONDS = 60.0
"""The longest that one world may take [s]."""


@dataclass(frozen=True)
class Packed:
    """What became of one world: whether it has a plan at all, and one by hand, or else why not."""

    name: str
    by_hand: bool
    has_plan: bool = True
    reason: str = ""


def packed(name: str, problem: Problem) -> Packed:
    """Ask the heuristic for a plan of one world, and the checker whether it keeps every rule."""
    frame = without_redundant_losses(build_frame(problem))
    limits, watch = Limits(wall_seconds=SECONDS), Watch(SECONDS)
    found = greedy_plan(frame, limits, watch)
    if found.draft is not None:
        flown = solve_flights(frame.world, limits, watch)
        plan = replace(build_plan(frame, found.draft), flights=flown.loads)
        findings = check(problem, plan).findings
        return Packed(name, not findings, reason="; ".join(f.message for f in findings[:1]))
    relaxation = build_relaxation(frame, steady=True, seed=1, should_stop=watch.is_over)
    relaxed = relaxed_plans(relaxation, limits, watch, start=None, peak=None)
    return Packed(name, by_hand=False, has_plan=not relaxed.infeasible, reason=found.reason)


def example(name: str) -> Problem:
    """The problem of an example."""
    from service.translate.read.requests import read_plan_request  # noqa: PLC0415 - for this alone

    document = json.loads((ROOT / f"examples/{name}.json").read_text(encoding="utf-8"))
    return read_plan_request(document).problem


def worlds(size: str, seeds: int, *, glaciers: bool) -> Iterator[tuple[str, Problem]]:
    """Seeded expeditions of one size, each with a name."""
    for seed in range(1, seeds + 1):
        plain = expedition(size_named(size), seed)
        yield f"{size} {seed}", on_glaciers(plain) if glaciers else plain


def summary(of: str, found: Sequence[Packed]) -> list[str]:
    """How many of some worlds have a plan by hand, and why each other one has none."""
    possible = [one for one in found if one.has_plan]
    by_hand = sum(one.by_hand for one in possible)
    share = f"{100 * by_hand / len(possible):.0f} %" if possible else "-"
    without = len(found) - len(possible)
    lines = [f"{of}: by hand {by_hand} of {len(possible)} ({share}), no plan at all {without}"]
    lines += [f"  {one.name}: {one.reason}" for one in possible if not one.by_hand]
    return lines


def main(arguments: Sequence[str]) -> int:
    """Print the shares; 1 where an example has no plan by hand or under 95 % of the worlds have."""
    reader = argparse.ArgumentParser(description=__doc__)
    reader.add_argument("--seeds", type=int, default=20)
    reader.add_argument("--sizes", nargs="*", default=SIZES)
    asked = reader.parse_args(arguments)
    groups = [("examples", [packed(name, example(name)) for name in EXAMPLES])]
    print(*summary(*groups[0]), sep="\n", flush=True)
    for size in asked.sizes:
        for glaciers in (False, True):
            name = f"{size} on glaciers" if glaciers else size
            some = worlds(size, asked.seeds, glaciers=glaciers)
            groups.append((name, [packed(*one) for one in some]))
            print(*summary(*groups[-1]), sep="\n", flush=True)
    possible = [one for _, found in groups[1:] for one in found if one.has_plan]
    by_hand = sum(one.by_hand for one in possible)
    print(f"all worlds: by hand {by_hand} of {len(possible)}")
    all_examples = all(one.by_hand for one in groups[0][1])
    return 0 if all_examples and by_hand >= 0.95 * len(possible) else 1


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
