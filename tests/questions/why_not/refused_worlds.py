"""Seeded worlds that were tightened until no plan was left, and what is said of them.

    python -m tests.questions.why_not.refused_worlds 0 500
    python -m tests.questions.why_not.refused_worlds 0 25 worlds.jsonl

makes those worlds, of three kinds in turn: one person's own cap, a party's caps on one leg, volume.
With a file, what was judged is added to it, and the sums are those of all that stands in it.
Of each: the world before it was tightened is solved, and no clash is found in it. The members of
the clash have no plan together, and without any one of them there is one; both are asked of the
model in one piece, which took no part in finding them. What was tightened is among the changes that
help, and each change that is said to help brings a plan that the pipeline checks. The times stand
beside those of the world before it was tightened.
"""

from __future__ import annotations

import json
import sys
import time
from dataclasses import asdict, dataclass
from pathlib import Path
from statistics import median, quantiles

from solver.diagnosis import Diagnosis
from solver.model.formulation.build_frame import build_frame
from solver.model.formulation.frame import Frame
from solver.model.formulation.redundant_losses import without_redundant_losses
from solver.model.infeasible.clash import Clash, find_clash, frame_of
from solver.model.instance.world import World
from solver.model.rules import build_rows
from solver.model.run import Run
from solver.model.solvers.solve_one_piece import least_peak
from solver.outcome import Limits, Solved
from solver.pipeline import plan
from solver.progress import Watch
from solver.questions.why_not import diagnose
from tests.pipeline.overtightened import Tightened, tightened

LIMITS = Limits(wall_seconds=30.0, workers=1, seed=1, gap=1_000)


@dataclass(frozen=True)
class Judged:
    """What is wrong with what was said of a world, and how long it took [s]."""

    faults: tuple[str, ...]
    twin_seconds: float
    seconds: float
    not_tried: int


def world_of(number: int) -> Tightened:
    """The world of a number; worlds short of containers are faults and come to no search."""
    return tightened(4 * (number // 3) + number % 3)


def judge(number: int) -> Judged:
    """Have a world refused and judge what is said."""
    case = world_of(number)
    begun = time.perf_counter()
    before = plan(case.before, LIMITS, _watch())
    twin_seconds = time.perf_counter() - begun
    begun = time.perf_counter()
    told = diagnose(case.problem, LIMITS, _watch())
    seconds = time.perf_counter() - begun
    faults = (
        [] if isinstance(before, Solved) else ["the world before it was tightened was not solved"]
    )
    if find_clash(without_redundant_losses(build_frame(case.before)), LIMITS, _watch()):
        faults.append("a clash was found in the world before it was tightened")
    faults += _faults_of_clash(case, told)
    faults += _faults_of_remedies(case, told)
    return Judged(tuple(faults), twin_seconds, seconds, told.not_tried)


def _watch() -> Watch:
    watch = Watch(LIMITS.wall_seconds, now=time.perf_counter)
    watch.start()
    return watch


def _faults_of_clash(case: Tightened, told: Diagnosis) -> list[str]:
    """What is wrong with the set that is said to clash, by the model in one piece."""
    if not told.clash:
        return ["no clash was found"]
    faults = [] if told.none_can_be_left_out else ["some member was not shown to be needed"]
    frame = without_redundant_losses(build_frame(case.problem))
    clash = find_clash(frame, LIMITS, _watch())
    assert clash is not None
    if [s.rule_id for s in clash.statements] != [m.rule_id for m in told.clash]:
        faults.append("another clash the second time")
    if _has_plan(frame.world, clash, without=None) is not False:
        faults.append("the clash has a plan")
    faults += [
        f"no plan without {statement.rule_id} {statement.about}"
        for number, statement in enumerate(clash.statements)
        if _has_plan(frame.world, clash, without=number) is not True
    ]
    return faults


def _has_plan(world: World, clash: Clash, without: int | None) -> bool | None:
    """Whether the rows of a clash, all but one statement's, have a plan in whole units."""
    kept = [s for number, s in enumerate(clash.statements) if number != without]
    frame: Frame = frame_of(world, build_rows(world), kept)
    answer = least_peak(frame, Run(10.0))
    if answer.infeasible:
        return False
    return True if answer.draft is not None else None


def _faults_of_remedies(case: Tightened, told: Diagnosis) -> list[str]:
    faults = [
        f"{' and '.join(one.texts)} brings no plan"
        for one in (*told.remedies, *told.pairs)
        if not isinstance(plan(one.problem, LIMITS), Solved)
    ]
    wanted = {"pack_cap_held": "cap", "pack_volume_held": "volume"}[dict(case.names)["rule"]]
    if not any(f"pack {wanted}" in text for one in told.remedies for text in one.texts):
        faults.append(f"no larger pack {wanted} is among {[one.texts for one in told.remedies]}")
    if len({one.texts for one in told.remedies}) < len(told.remedies):
        faults.append("a change is told twice")
    return faults


def main(first: int, last: int, record: Path | None = None) -> int:
    """Judge the worlds of a range; 1 where anything was wrong."""
    judged = _recorded(record)
    for number in range(first, last):
        judged.append(judge(number))
        for fault in judged[-1].faults:
            sys.stdout.write(f"world {number} ({world_of(number).kind}): {fault}\n")
            sys.stdout.flush()
        if record is not None:
            with record.open("a") as lines:
                lines.write(json.dumps(asdict(judged[-1])) + "\n")
        if len(judged) % 50 == 0:
            _tell(judged)
    _tell(judged)
    return 1 if any(one.faults for one in judged) else 0


def _recorded(record: Path | None) -> list[Judged]:
    if record is None or not record.exists():
        return []
    lines = [json.loads(line) for line in record.read_text().splitlines()]
    return [Judged(**{**line, "faults": tuple(line["faults"])}) for line in lines]


def _tell(judged: list[Judged]) -> None:
    """Say how many worlds were judged so far, and the times."""
    wrong = sum(bool(one.faults) for one in judged)
    left = sum(one.not_tried for one in judged)
    sys.stdout.write(f"{len(judged)} worlds, {wrong} wrong; changes not tried: {left}\n")
    for name, numbers in (
        ("the plan before [s]", [one.twin_seconds for one in judged]),
        ("why there is none [s]", [one.seconds for one in judged]),
        ("the second by the first", [one.seconds / one.twin_seconds for one in judged]),
    ):
        ninety = quantiles(numbers, n=10)[-1]
        sys.stdout.write(f"{name}: median {median(numbers):.2f}, 90 % {ninety:.2f}\n")
    sys.stdout.flush()


if __name__ == "__main__":
    sys.exit(main(int(sys.argv[1]), int(sys.argv[2]), *map(Path, sys.argv[3:])))
