"""Known least numbers of bins, asked of the pipeline as one leg moved once.

    HAULWRIGHT_OUTSIDE_DATA=folder python -m tests.benchmarks.bin_packing

Uniform instances: a party as large as the known least number of bins must find a plan, and
one person fewer must be told that there is none, each within 30 s. Triplets: 40 people must
find the plan that fills every pack to its 1000 g, within 60 s. Prints a line for each and
leaves with status 1 when fewer are solved than is asked for.
"""

from __future__ import annotations

import os
import sys
import time
from pathlib import Path

from solver.outcome import Infeasible, Limits, Outcome, Solved
from solver.pipeline import plan
from solver.progress import Watch
from tests.pipeline.bin_packing import BinPacking, triplet_instances, uniform_instances
from tests.pipeline.one_leg import one_leg

UNIFORM_S, TRIPLET_S = 30.0, 60.0
ASKED_OF_UNIFORM, ASKED_OF_TRIPLETS = 20, 3


def timed(instance: BinPacking, people: int, seconds: float) -> tuple[Outcome, float]:
    """The outcome for a party of so many, and how long it took [s]."""
    problem = one_leg(instance.sizes, people=people, cap_g=instance.capacity)
    begun = time.monotonic()
    outcome = plan(problem, Limits(wall_seconds=seconds), Watch(seconds, now=time.monotonic))
    return outcome, time.monotonic() - begun


def told(outcome: Outcome) -> str:
    """An outcome in a few words."""
    if isinstance(outcome, Solved):
        return f"solved, peak {outcome.goals[0].value}"
    return type(outcome).__name__


def uniform(instance: BinPacking) -> bool:
    """Whether a uniform instance comes out as known, in time."""
    with_all, first_s = timed(instance, instance.bins, UNIFORM_S)
    with_fewer, second_s = timed(instance, instance.bins - 1, UNIFORM_S)
    good = isinstance(with_all, Solved) and isinstance(with_fewer, Infeasible)
    good = good and max(first_s, second_s) <= UNIFORM_S
    print(
        f"{instance.name}: {instance.bins} people {told(with_all)} in {first_s:.1f} s, "
        f"{instance.bins - 1} people {told(with_fewer)} in {second_s:.1f} s"
        f"{'' if good else '  <- not as known'}",
        flush=True,
    )
    return good


def triplet(instance: BinPacking) -> bool:
    """Whether a triplet instance is packed without a gram to spare, in time."""
    outcome, took_s = timed(instance, instance.bins, TRIPLET_S)
    good = isinstance(outcome, Solved) and outcome.goals[0].value == 10_000 and took_s <= TRIPLET_S
    print(f"{instance.name}: {instance.bins} people {told(outcome)} in {took_s:.1f} s", flush=True)
    return good


def main() -> int:
    """Run all instances; 0 when as many are solved as is asked for."""
    folder = os.environ.get("HAULWRIGHT_OUTSIDE_DATA")
    if not folder:
        print("HAULWRIGHT_OUTSIDE_DATA does not name a folder of outside data")
        return 1
    uniforms = [uniform(instance) for instance in uniform_instances(Path(folder))]
    triplets = [triplet(instance) for instance in triplet_instances(Path(folder))]
    print(f"uniform: {sum(uniforms)} of {len(uniforms)} as known within {UNIFORM_S:.0f} s")
    print(f"triplets: {sum(triplets)} of {len(triplets)} exactly full within {TRIPLET_S:.0f} s")
    enough = sum(uniforms) >= ASKED_OF_UNIFORM and sum(triplets) >= ASKED_OF_TRIPLETS
    return 0 if enough else 1


if __name__ == "__main__":
    sys.exit(main())
