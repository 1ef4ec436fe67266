"""What a solve takes, by size of expedition: processor time, documents, memory.

`python -m tests.growth.solves FILE SECONDS` solves one request and prints its figures as JSON.
Processor time tells what one core serves, on a machine that does other things too.
"""

import json
import resource
import subprocess
import sys
import time
import zlib
from dataclasses import asdict, dataclass
from pathlib import Path

from service.jobs.child import solve_document
from service.jobs.child_process import JobLimits

ROOT = Path(__file__).parents[2]
EXAMPLES = {
    "the smallest request, 3 people": "smallest-request",
    "3 people, independent": "independent-three",
    "6 people, guided": "guided-six",
    "7 people, guided": "guided-seven",
    "12 people, guided": "guided-twelve",
}
"""Sizes of expedition, each with the example that stands for it."""
LIMIT_SECONDS = 300.0
_MEMORY = 2048 * 1024 * 1024


@dataclass(frozen=True)
class Solve:
    """One solve: times [s], sizes of documents [byte], most memory of its process [MB]."""

    outcome: str
    cpu_seconds: float
    wall_seconds: float
    request_bytes: int
    outcome_bytes: int
    packed_bytes: int
    progress_bytes: int
    memory_mb: float


class _Talk:
    """Hears what a child says."""

    def __init__(self) -> None:
        self.told = 0

    def tell(self, progress: bytes) -> None:
        """Count the bytes that would be stored as events."""
        self.told += len(progress)

    def should_finish(self) -> bool:
        """Nobody is in a hurry."""
        return False


def solve(path: Path, seconds: float) -> Solve:
    """Solve a request in this process, which should do nothing else."""
    request = path.read_bytes()
    talk = _Talk()
    begin_cpu, begin = time.process_time(), time.monotonic()
    outcome = solve_document(request, JobLimits(seconds, _MEMORY), talk)
    cpu, wall = time.process_time() - begin_cpu, time.monotonic() - begin
    packed = zlib.compress(request, 1), zlib.compress(outcome, 1)
    return Solve(
        outcome=json.loads(outcome)["outcome"],
        cpu_seconds=cpu,
        wall_seconds=wall,
        request_bytes=len(request),
        outcome_bytes=len(outcome),
        packed_bytes=sum(map(len, packed)),
        progress_bytes=talk.told,
        memory_mb=resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024,
    )


def solve_apart(example: str) -> Solve:
    """Solve an example in a process of its own, without a limit that a busy machine reaches."""
    path = ROOT / "examples" / f"{example}.json"
    told = subprocess.run(
        [sys.executable, "-m", "tests.growth.solves", str(path), str(LIMIT_SECONDS)],
        check=True,
        capture_output=True,
        text=True,
        cwd=ROOT,
    )
    return Solve(**json.loads(told.stdout))


if __name__ == "__main__":
    print(json.dumps(asdict(solve(Path(sys.argv[1]), float(sys.argv[2])))))
