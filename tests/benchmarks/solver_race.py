"""Our way of solving against CP-SAT, HiGHS and SCIP on two models of the same expeditions.

    python -m tests.benchmarks.solver_race [--size small|medium|large|xl|xxl|all] [--seeds N]
        [--seconds S] [--json FILE] [--only ours,textbook-cp-sat,…] [--gap G] [--memory MB]
    python -m tests.benchmarks.solver_race --rules [--size …] [--seeds N] [--seconds S]
    python -m tests.benchmarks.solver_race --growth [--size …] [--seeds N] [--seconds S] [--out DIR]
    python -m tests.benchmarks.solver_race --rosters 20 [--seconds S]
    python -m tests.benchmarks.solver_race --fairness [--seconds S]

Without --size or --only, the race at small is followed by --rules at all sizes: ours without the
rules of glaciers and with every rule, side by side. The textbook model has the rows of the ledger,
caps, volumes, kit and reserves, and none of the rules of glaciers, so that all contestants race on
expeditions that tell no crevasse hazard, where those rules are not asked.

Leaves with status 1 when somebody's bound is above somebody's plan, or a plan breaks a rule.
"""

from __future__ import annotations

import argparse
import json
import sys
from dataclasses import asdict
from pathlib import Path

from tests.benchmarks.fairness import run_fairness
from tests.benchmarks.growth import run_growth
from tests.benchmarks.instances import SIZES, Size
from tests.benchmarks.race_measures import Measures, best_bound, contradictions, measure, ratios
from tests.benchmarks.race_table import ABOUT, summary, table
from tests.benchmarks.racing import NAMES, Task, machine, race
from tests.benchmarks.rosters import run_rosters
from tests.benchmarks.rules_cost import run_rules_cost

REPOSITORY = Path(__file__).resolve().parents[2]


def arguments(words: list[str] | None = None) -> argparse.Namespace:
    """What the caller asks for."""
    parser = argparse.ArgumentParser(
        prog="run.sh solver", description="Our way of solving against CP-SAT, HiGHS and SCIP."
    )
    sizes = [size.name for size in SIZES]
    parser.add_argument("--size", choices=[*sizes, "all"], help="default: small")
    parser.add_argument("--seeds", type=int, default=1, help="seeds 1 to N of each size")
    parser.add_argument("--seconds", type=float, default=30.0, help="wall time of each contestant")
    parser.add_argument("--json", type=Path, help="where to write all numbers")
    parser.add_argument("--only", default=",".join(NAMES), help="contestants, by commas")
    parser.add_argument("--gap", type=int, default=0, help="where ours may stop [1/10,000]")
    parser.add_argument("--memory", type=int, default=8000, help="end a contestant above [MB]")
    parser.add_argument("--rules", action="store_true", help="ours without and with every rule")
    parser.add_argument("--growth", action="store_true", help="time and memory against size")
    parser.add_argument("--out", type=Path, default=REPOSITORY / "examples", help="for --growth")
    parser.add_argument("--rosters", type=int, metavar="N", help="N rosters in one process")
    parser.add_argument("--fairness", action="store_true", help="goals beside the greedy plan's")
    asked = parser.parse_args(words)
    asked.plain = asked.size is None and asked.only == ",".join(NAMES)
    asked.only = asked.only.split(",")
    if unknown := sorted(set(asked.only) - set(NAMES)):
        parser.error(f"unknown contestants {', '.join(unknown)}; there are {', '.join(NAMES)}")
    return asked


def sizes_of(asked: argparse.Namespace, otherwise: str) -> list[Size]:
    """The sizes asked for, in order."""
    name = asked.size or otherwise
    return [size for size in SIZES if name in ("all", size.name)]


def title(size: Size, seed: int, seconds: float) -> str:
    """An expedition in a line."""
    return (
        f"{size.name}, seed {seed}: {size.people} people, {size.days} days, "
        f"{len(size.carries) + 1} camps, {size.pieces} shared pieces; {seconds:g} s each"
    )


def told_machine(info: dict[str, str | int | float]) -> str:
    """The machine in two lines, so that noise can be seen."""
    return (
        f"{info['cpu']}, {info['cores']} cores of which {info['cores_used']} are used; "
        f"load {info['load_1_min']} (1 min), {info['load_5_min']} (5 min) at the start;\n"
        f"Python {info['python']}, OR-Tools {info['ortools']}"
    )


def run_race(asked: argparse.Namespace) -> int:
    """Race all contestants on all expeditions asked for; 1 when something cannot be."""
    info = machine()
    print(told_machine(info), ABOUT, sep="\n\n", flush=True)
    wrong: list[str] = []
    record: list[dict[str, object]] = []
    for size in sizes_of(asked, "small"):
        races: list[tuple[list[Measures], int]] = []
        for seed in range(1, asked.seeds + 1):
            tasks = [
                Task(name, size.name, seed, asked.seconds, asked.gap, asked.memory)
                for name in NAMES
                if name in asked.only
            ]
            runs = [race(task) for task in tasks]
            bound = best_bound(runs)
            rows = [measure(run, bound) for run in runs]
            found = ratios(rows, asked.seconds)
            races.append((rows, bound))
            print("", table(title(size, seed, asked.seconds), rows, bound, found), sep="\n")
            here = [f"{size.name}, seed {seed}: {words}" for words in contradictions(runs)]
            print(*here, sep="\n", end="\n" if here else "", flush=True)
            wrong += here
            record.append(
                {
                    "size": size.name,
                    "seed": seed,
                    "true_bound": bound,
                    "measures": [asdict(row) for row in rows],
                    "best_other_over_ours": found,
                    "contradictions": here,
                    "runs": [asdict(run) for run in runs],
                }
            )
            if asked.json:
                whole = {"machine": info, "seconds": asked.seconds, "gap": asked.gap}
                asked.json.write_text(json.dumps(whole | {"races": record}, indent=1) + "\n")
        if asked.seeds > 1:
            print("", summary(size.name, races, asked.seconds), sep="\n", flush=True)
    return 1 if wrong else 0


def main(words: list[str] | None = None) -> int:
    """Do what is asked for."""
    asked = arguments(words)
    if asked.growth:
        return run_growth(sizes_of(asked, "all"), asked)
    if asked.rosters:
        return run_rosters(asked.rosters, asked.seconds, asked.size or "medium")
    if asked.fairness:
        return run_fairness(REPOSITORY / "examples", asked.seconds)
    if asked.rules:
        return run_rules_cost(sizes_of(asked, "all"), asked.seeds, asked.seconds, asked.memory)
    status = run_race(asked)
    if asked.plain:
        cost = run_rules_cost(list(SIZES), asked.seeds, asked.seconds, asked.memory)
        status = max(status, cost)
    return status


if __name__ == "__main__":
    sys.exit(main())
