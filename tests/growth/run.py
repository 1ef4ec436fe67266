"""Measures growth and prints it as Markdown: `bash tests/reliability/run.sh growth [--long]`.

`--long` fills both databases with a million plans instead of a hundred thousand, and solves each
example three times. `--write` puts the text into service/GROWTH.md, below the line that says so.
The exit status says whether every page was quick enough, and the real workers as simulated.
"""

import contextlib
import os
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from statistics import median

from service.storage.database import open_database
from tests.growth.costs import measure, solve_all
from tests.growth.fleet import Costs, Fleet, simulate
from tests.growth.questions import PAGE_MS, Answered, ask_all, retention_seconds
from tests.growth.rows import fill_postgresql, fill_sqlite
from tests.growth.solves import EXAMPLES, Solve, solve_apart
from tests.service.postgres import Server, programs

ROOT = Path(__file__).parents[2]
PAGE = ROOT / "service" / "GROWTH.md"
MARK = "<!-- What follows is written by the command. -->\n"
_FLEETS = (1, 2, 5, 10, 20, 50, 100)
_REAL_SECONDS = (0.4, 1.0, 2.5)
_USUAL_CONNECTIONS = 100
_AS_SIMULATED = (0.8, 1.25)
"""What two real workers may take of the simulated time [1]; one of them sets the simulation."""


def solves(times: int) -> dict[str, list[Solve]]:
    """Every size solved so often."""
    return {name: [solve_apart(file) for _ in range(times)] for name, file in EXAMPLES.items()}


def table(head: list[str], rows: list[list[object]]) -> str:
    """A table in Markdown; the first column is text, the others are numbers."""
    lines = [head, ["---", *["---:"] * (len(head) - 1)], *rows]
    return "\n".join("| " + " | ".join(map(str, line)) + " |" for line in lines) + "\n"


def by_size(measured: dict[str, list[Solve]]) -> str:
    """What one core serves an hour, and what a plan leaves behind."""
    rows = []
    for name, some in measured.items():
        cpu = median(one.cpu_seconds for one in some)
        first = some[0]
        stored = first.request_bytes + first.outcome_bytes + 2 * first.progress_bytes
        rows.append([
            name, f"{cpu:.1f}", f"{3600 / cpu:.0f}", f"{first.memory_mb:.0f}",
            f"{first.request_bytes / 1000:.0f}", f"{first.outcome_bytes / 1000:.0f}",
            f"{stored / 1000:.0f}", f"{first.packed_bytes / 1000:.0f}",
        ])  # fmt: skip
    head = ["expedition", "CPU a solve [s]", "plans an hour and core", "memory [MB]",
            "request [kB]", "outcome [kB]", "stored [kB]", "the same, compressed [kB]"]  # fmt: skip
    return table(head, rows)


def full_databases(plans: int) -> Iterator[tuple[str, list[Answered], tuple[int, float]]]:
    """Each kind of database with so many plans: its answers, and a removal of old plans."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "plans.sqlite3"
        engine = open_database(path)
        fill_sqlite(path, plans)
        yield "SQLite", ask_all(engine, times=20), retention_seconds(engine, 365)
        engine.dispose()
    with server() as (running, address):
        engine = open_database(address)
        fill_postgresql(address, plans)
        yield "PostgreSQL", ask_all(engine, times=20), retention_seconds(engine, 365)
        engine.dispose()
        assert running.port


@contextlib.contextmanager
def server() -> Iterator[tuple[Server, str]]:
    """A server of PostgreSQL with an empty database."""
    found = programs()
    if found is None:
        sys.exit("PostgreSQL is not installed.")
    running = Server(found)
    running.start()
    try:
        yield running, running.make("growth")
    finally:
        running.remove()


def answers_table(both: list[tuple[str, list[Answered], tuple[int, float]]]) -> str:
    """The time of each answer on both databases, and of the removal."""
    (_, one, removed_one), (_, two, removed_two) = both
    rows: list[list[object]] = [
        [a.name + (" (page)" if a.is_page else ""), a.rows,
         f"{a.median_ms:.1f}", f"{a.longest_ms:.1f}", f"{b.median_ms:.1f}", f"{b.longest_ms:.1f}"]
        for a, b in zip(one, two, strict=True)
    ]  # fmt: skip
    per = [f"{1000 * seconds / max(1, count):.2f}" for count, seconds in (removed_one, removed_two)]
    rows.append(["removing an old plan, each", removed_one[0], per[0], "", per[1], ""])
    head = ["question", "rows", "SQLite, median [ms]", "longest", "PostgreSQL, median [ms]",
            "longest"]  # fmt: skip
    return table(head, rows)


@contextlib.contextmanager
def crew(address: str, workers: int) -> Iterator[None]:
    """So many real workers with the obedient solver, on a database."""
    environment = {
        **os.environ,
        "HAULWRIGHT_DATABASE_URL": address,
        "HAULWRIGHT_SOLVE_WORKERS": "1",
        "HAULWRIGHT_SOLVE_MEMORY_MB": "400",
    }
    command = [sys.executable, "-m", "tests.service.worker"]
    quiet = {"stdout": subprocess.DEVNULL, "stderr": subprocess.DEVNULL}
    started = [
        subprocess.Popen(command, env=environment, cwd=ROOT, **quiet) for _ in range(workers)
    ]
    try:
        yield
    finally:
        for process in started:
            process.terminate()
        for process in started:
            process.wait(timeout=60)


def against_real_workers(running: Server, costs: Costs, plans: int) -> tuple[str, Costs, float]:
    """One and two real workers beside the simulation.

    Gives the text, the costs with what the real ones told: time between solves, connections; and
    the real time of two workers as a share of the simulated one [1].
    """
    rows, held, ratio = [], 0.0, float("nan")
    costs = replace(costs, between=0.0)
    times = [_REAL_SECONDS[number % len(_REAL_SECONDS)] for number in range(plans)]
    for workers in (1, 2):
        address = running.make(f"real{workers}")
        real, connections = solve_all(running, address, crew(address, workers), times)
        if workers == 1:
            # One worker tells what passes between two solves, and two are then told beforehand.
            free = simulate(Fleet(1), costs, times, seconds=1e6, plans=plans).seconds
            costs = replace(costs, between=max(0.0, real - free) / plans)
        told = simulate(Fleet(workers), costs, times, seconds=1e6, plans=plans).seconds
        held = max(held, connections / workers)
        ratio = real / told
        rows.append([workers, f"{real:.1f}", f"{told:.1f}", f"{ratio:.2f}"])
    head = ["workers", "real [s]", "simulated [s]", "real / simulated"]
    return table(head, rows), replace(costs, connections=held), ratio


def fleets(costs: Costs, solve_seconds: list[float]) -> str:
    """What fleets of one to a hundred workers do."""
    rows = []
    alone = simulate(Fleet(1), costs, solve_seconds, seconds=3600).an_hour
    for workers in _FLEETS:
        served = simulate(
            Fleet(workers), costs, solve_seconds, seconds=600 if workers > 9 else 3600
        )
        rows.append([
            workers, f"{served.an_hour:.0f}", f"{served.an_hour / alone / workers:.2f}",
            f"{100 * served.busy:.0f}", f"{1000 * served.claim_p99():.0f}", served.late_renewals,
            f"{workers * costs.connections:.0f}",
        ])  # fmt: skip
    head = ["workers", "plans an hour", "of ideal", "database busy [%]", "claim p99 [ms]",
            "late renewals", "connections"]  # fmt: skip
    return table(head, rows)


def most_workers(costs: Costs, solve_seconds: list[float]) -> int:
    """The largest fleet that still does nine tenths of what it would with a free database."""
    alone = simulate(Fleet(1), costs, solve_seconds, seconds=3600).an_hour
    workers = 1
    while workers < 4000:
        served = simulate(Fleet(2 * workers), costs, solve_seconds, seconds=120)
        if served.an_hour < 0.9 * alone * 2 * workers:
            break
        workers *= 2
    return workers


def missed(slow: list[str], ratio: float) -> list[str]:
    """The promises that were not kept: slow pages, and how far from the simulation two workers are.

    No ratio at all is a promise that was not kept, too.
    """
    least, most = _AS_SIMULATED
    told = [f"{name} takes over {PAGE_MS:.0f} ms" for name in slow]
    if not least <= ratio <= most:
        told.append(f"two workers take {ratio:.2f} of the simulated time, not {least} to {most}")
    return told


def report(*, is_long: bool) -> tuple[str, list[str]]:
    """Everything measured, as Markdown, and the promises that were not kept."""
    plans = 1_000_000 if is_long else 100_000
    measured = solves(3 if is_long else 1)
    both = list(full_databases(plans))
    slow = [
        a.name for _, answers, _ in both for a in answers if a.is_page and a.median_ms > PAGE_MS
    ]
    with server() as (running, address):
        costs = measure(running, address, times=400 if is_long else 100)
        real, costs, ratio = against_real_workers(running, costs, 60 if is_long else 20)
    times = [one.cpu_seconds for some in measured.values() for one in some]
    quick = [one.cpu_seconds for one in next(iter(measured.values()))]
    load = " ".join(f"{one:.1f}" for one in os.getloadavg())
    in_ms = ", ".join(f"{k} {1000 * v:.2f} ms" for k, v in costs.__dict__.items() if v < 1)
    kept_up = most_workers(costs, times), most_workers(costs, quick)
    used_up = int(_USUAL_CONNECTIONS / costs.connections)
    parts = [
        f"Measured on {os.cpu_count()} cores with load averages {load}.\n",
        "## What one core serves\n",
        by_size(measured),
        f"## A database with {plans:,} plans\n",
        answers_table(both),
        f"Pages over {PAGE_MS:.0f} ms: {', '.join(slow) or 'none'}.\n",
        "## What the database does for a worker\n",
        f"Processor time of PostgreSQL and delays: {in_ms}.\n",
        f"One worker holds {costs.connections:.0f} connections.\n",
        "## The simulation beside real workers\n",
        real,
        "## Fleets, plans as measured above\n",
        fleets(costs, times),
        f"A database of two cores keeps up with {kept_up[0]} workers.",
        f"{_USUAL_CONNECTIONS} connections are used up by {used_up}.\n",
        "## Fleets, the smallest plans only\n",
        fleets(costs, quick),
        f"A database of two cores keeps up with {kept_up[1]} workers.\n",
    ]
    return "\n".join(parts), missed(slow, ratio)


def main() -> None:
    """Print the report, and write it where that is asked."""
    given = sys.argv[1:]
    text, wrong = report(is_long="--long" in given)
    print(text)
    if "--write" in given:
        kept = PAGE.read_text("utf-8").partition(MARK)[0]
        PAGE.write_text(f"{kept}{MARK}\n{text}", "utf-8")
    print(f"promises missed: {'; '.join(wrong) or 'none'}")
    sys.exit(bool(wrong))


if __name__ == "__main__":
    main()
