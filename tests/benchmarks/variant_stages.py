"""Where the CPU time of one variant goes, and how much of it variants with other caps could share.

    python -m tests.benchmarks.variant_stages guided-twelve 60

It reads, solves, checks and writes an example in this process, and prints the CPU time of each
stage. Then it measures again what another cap of one person leaves as it is: reading the request,
its requirements and the rows of the model, and the linear program of the relaxation.
"""

from __future__ import annotations

import json
import sys
import time
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

from service.translate.read.requests import read_plan_request
from service.translate.write.outcomes import write_outcome
from solver.model.formulation.build_frame import build_frame
from solver.model.formulation.redundant_losses import without_redundant_losses
from solver.model.solvers.relaxation import build_relaxation, least_peak_bound
from solver.progress import Progress, Watch
from solver.questions.answer import answer

EXAMPLES = Path(__file__).parents[2] / "examples"


def cpu_of(work: Callable[[], object]) -> float:
    """CPU time of some work [s]."""
    begun = time.process_time()
    work()
    return time.process_time() - begun


def stages_of(example: str, seconds: float) -> dict[str, float]:
    """CPU time by stage of a whole solve, with reading and writing [s]."""
    document = json.loads((EXAMPLES / f"{example}.json").read_text(encoding="utf-8"))
    found: dict[str, float] = {}
    last = time.process_time()

    def note(stage: str) -> None:
        nonlocal last
        now = time.process_time()
        found[stage] = found.get(stage, 0.0) + now - last
        last = now

    def tell(progress: Progress) -> None:
        note(progress.stage)

    read = read_plan_request(document)
    note("reading")
    watch = Watch(seconds, now=time.process_time, tell=tell)
    limits = replace(read.limits, wall_seconds=seconds)
    outcome = answer(read.problem, limits, watch, timeline=read.timeline)
    write_outcome(outcome, read).model_dump_json()
    note("writing")
    return found


def shareable(example: str) -> dict[str, float]:
    """CPU time of what does not depend on caps, or could begin from the base's [s]."""
    document = json.loads((EXAMPLES / f"{example}.json").read_text(encoding="utf-8"))
    read = read_plan_request(document)
    frame = without_redundant_losses(build_frame(read.problem, read.timeline))
    relaxation = build_relaxation(frame, steady=True)
    return {
        "reading": cpu_of(lambda: read_plan_request(document)),
        "requirements and rows": cpu_of(
            lambda: without_redundant_losses(build_frame(read.problem, read.timeline))
        ),
        "linear program": cpu_of(lambda: least_peak_bound(relaxation, seconds=60.0)),
    }


def main(example: str, seconds: float) -> int:
    """Print both."""
    stages, shared = stages_of(example, seconds), shareable(example)
    total = sum(stages.values())
    for name, part in stages.items():
        sys.stdout.write(f"{name:24} {part:6.2f} s {part / total:5.1%}\n")
    sys.stdout.write(f"{'in all':24} {total:6.2f} s\nof it the same with another cap:\n")
    for name, part in shared.items():
        sys.stdout.write(f"{name:24} {part:6.2f} s {part / total:5.1%}\n")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1], float(sys.argv[2])))
