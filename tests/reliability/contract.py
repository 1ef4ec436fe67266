"""The service against its published description: `bash tests/reliability/run.sh contract [--long]`.

Schemathesis asks every operation with all of its checks, each operation in a run of its own, and
then goes from answer to answer through all of them (stateful). Each run has a service of its own
with plans and other things stored in it, and most names that are asked for are names of those:
a name that nobody gave leads to a 404 and no further. What is stored while going from answer to
answer has bodies that are in order, see `contract_hooks`. A walk ends where an answer differs when
it is asked again, as lists of plans do, so that walks with other seeds follow until enough were
gone.

The long form has a thousand examples each. That takes hours on one core, so `--beside N` runs so
many operations at a time, and `--record FILE` keeps what ended well and leaves it out when the same
FILE is given again. `--only NAME` runs one operation, or `stateful`.
"""

import argparse
import itertools
import json
import os
import queue
import re
import signal
import subprocess
import sys
import tempfile
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, replace
from pathlib import Path

from api_schema.examples import SMALLEST_REQUEST
from tests.reliability.contract_hooks import HEARD
from tests.service.processes import CALLER, RunningService, free_port
from tests.service.test_access import LIBRARY

ROOT = Path(__file__).parents[2]
STATEFUL = "stateful"
LONG, SHORT = 1000, 3
PLANTED = {
    "read_plan": ("reading_breaks", "Server error"),
    STATEFUL: ("keeps_deleted", "Deleted resource still available"),
}
"""The fault that each way of asking must catch, and what its report then says."""
_METHODS = {"get", "post", "put", "patch", "delete"}


@dataclass(frozen=True)
class Verdict:
    """What came of one run: how many cases, how long [s], and the report if it is a bad one."""

    name: str
    is_well: bool
    cases: int
    seconds: float
    report: str

    def __str__(self) -> str:
        """One line, with what was found behind it."""
        line = f"{self.name}: {self.cases} cases in {self.seconds:.0f} s: "
        found = [one[:800] for one in self.report.partition("= FAILURES =")[2].splitlines()]
        return line + ("ok" if self.is_well else "\n".join(["BROKEN", *(found or [self.report])]))


def operations() -> dict[str, str]:
    """The path of each operation by its name, as the description gives them."""
    description = json.loads((ROOT / "api_schema/openapi.v1.json").read_text(encoding="utf-8"))
    return {
        operation["operationId"]: path
        for path, methods in description["paths"].items()
        for method, operation in methods.items()
        if method in _METHODS
    }


@contextmanager
def served(folder: Path, planted: str = "") -> Iterator[RunningService]:
    """A service with its real solver whose solves and answers are short, ended with the context."""
    settings = {
        "HAULWRIGHT_PORT": str(free_port()),
        "HAULWRIGHT_DATABASE": str(folder / "plans.sqlite3"),
        "HAULWRIGHT_SOLVE_SECONDS": "1",
        "HAULWRIGHT_SOLVE_LIMIT_SECONDS": "2",
        "HAULWRIGHT_QUESTION_LIMIT_SECONDS": "0.5",
    }
    module = "service"
    if planted:
        settings["PLANTED_FAULT"] = planted
        module = "tests.reliability.planted_api"
    running = RunningService(environment=settings, log=folder / "service.log", module=module)
    running.start()
    try:
        yield running
    finally:
        running.end(signal.SIGKILL)


def store_things(running: RunningService, name: str) -> dict[str, list[str]]:
    """Store plans, and what else an operation asks for by name; gives the names by parameter."""

    def post(path: str, body: object, **headers: str) -> dict[str, str]:
        answer = CALLER.post(f"{running.url}{path}", json=body, headers=headers, timeout=75)
        assert answer.is_success, f"POST {path}: {answer.text}"
        return answer.json()

    requests = (SMALLEST_REQUEST, SMALLEST_REQUEST | {"without": ["third"]})
    plan_ids = [post("/v1/plans", body, Prefer="wait=60")["plan_id"] for body in requests]
    solved = f"/v1/plans/{plan_ids[0]}"
    names = {"path.plan_id": [*plan_ids, plan_ids[0]], "query.to": plan_ids}
    asked = re.findall("{([a-z_]+)}", operations().get(name, ""))
    if "comparison_id" in asked:
        compared = {"base": SMALLEST_REQUEST, "variants": [{"name": "same", "patch": {}}]}
        names["path.comparison_id"] = [post("/v1/comparisons", compared)["comparison_id"]]
    if "stress_test_id" in asked:
        tested = post(f"{solved}/stress-tests", {"seconds": 5}, Prefer="wait=60")
        names["path.stress_test_id"] = [tested["stress_test_id"]]
    if "report_id" in asked:
        report = post(f"{solved}/reports", {"remarks": ["It blew."]})
        names["path.report_id"] = [report["report_id"]]
    for kind, entry in LIBRARY.items():
        address = f"{running.url}/v1/library/{kind}/entry-stored"
        CALLER.put(address, json=entry, timeout=60).raise_for_status()
    return names | {"path.entry_id": ["entry-stored"]}


def configuration(names: dict[str, list[str]]) -> str:
    """The settings of schemathesis, with names that it takes nine times out of ten."""
    lists, uses = [], []
    for number, (parameter, values) in enumerate(names.items()):
        lists.append(f"[dictionaries.names{number}]\nvalues = {json.dumps(values)}")
        uses.append(f'"{parameter}" = {{ dictionary = "names{number}", probability = 0.9 }}')
    own = (ROOT / "tests/service/schemathesis.toml").read_text(encoding="utf-8")
    return "\n".join([own, *lists, "[parameters]", *uses, ""])


def ask(running: RunningService, name: str, *, examples: int, phases: str = "") -> Verdict:
    """Let schemathesis ask one operation, or go through all of them."""
    settings = running.log.with_name("schemathesis.toml")
    settings.write_text(configuration(store_things(running, name)), encoding="utf-8")
    if name == STATEFUL and not phases:
        return walk(running, settings, examples=examples)
    options = ["--phases", phases or "examples,coverage,fuzzing", "--generation-deterministic"]
    if name != STATEFUL:
        options += ["--include-operation-id", name]
    return run(running, settings, name, [*options, "--max-examples", str(examples)])


def walk(running: RunningService, settings: Path, *, examples: int) -> Verdict:
    """Go from answer to answer with one seed after another, until so many walks were gone."""
    heard = running.log.with_name("heard")
    heard.touch()
    verdict, walks = Verdict(STATEFUL, is_well=True, cases=0, seconds=0, report=""), 0
    for seed in itertools.count(1):
        options = ["--phases", STATEFUL, "--seed", str(seed), "--max-examples", str(examples)]
        options += [] if examples == LONG else ["--max-failures", "1"]
        found = run(running, settings, STATEFUL, options, heard)
        gone = re.search(r"Scenarios: +(\d+)", found.report)
        walks += int(gone[1]) if gone else 0
        verdict = replace(
            found,
            is_well=found.is_well and gone is not None,
            cases=verdict.cases + found.cases,
            seconds=verdict.seconds + found.seconds,
        )
        if walks >= examples or not verdict.is_well:
            break
    calls = [line.split() for line in heard.read_text(encoding="ascii").splitlines()]
    asked = {name for name, _ in calls}
    answered = {name for name, status in calls if status.startswith("2")}
    print(
        f"{walks} walks with {seed} seeds: {len(asked)} of {len(operations())} operations asked, "
        f"{len(answered)} answered with success",
        flush=True,
    )
    return verdict


def run(
    running: RunningService,
    settings: Path,
    name: str,
    options: list[str],
    heard: Path | None = None,
) -> Verdict:
    """One run of schemathesis; what walks hear is added to the file."""
    environment = {
        **os.environ,
        "SCHEMATHESIS_HOOKS": "tests.reliability.contract_hooks",
        "PYTHONPATH": str(ROOT),
    }
    if heard is not None:
        environment[HEARD] = str(heard)
    begin = time.monotonic()
    ended = subprocess.run(
        [
            *(str(Path(sys.executable).parent / "schemathesis"), "--config-file", str(settings)),
            *("run", f"{running.url}/openapi.json", *options),
        ],
        capture_output=True,
        text=True,
        check=False,
        cwd=ROOT,
        env=environment,
    )
    counted = re.search(r"(\d+) generated", ended.stdout)
    return Verdict(
        name,
        is_well=ended.returncode == 0 and counted is not None,
        cases=int(counted[1]) if counted else 0,
        seconds=time.monotonic() - begin,
        report=ended.stdout + ended.stderr,
    )


def ask_all(names: list[str], *, examples: int, beside: int, record: Path | None) -> bool:
    """Ask so many operations at a time; gives whether all was well."""
    waiting: queue.SimpleQueue[str] = queue.SimpleQueue()
    for name in names:
        waiting.put(name)
    told = threading.Lock()
    all_well = []

    def work() -> None:
        while True:
            try:
                name = waiting.get_nowait()
            except queue.Empty:
                return
            with tempfile.TemporaryDirectory() as folder, served(Path(folder)) as running:
                verdict = ask(running, name, examples=examples)
            with told:
                all_well.append(verdict.is_well)
                print(verdict, flush=True)
                if record and verdict.is_well:
                    with record.open("a", encoding="utf-8") as lines:
                        lines.write(f"{name} {examples}\n")

    crew = [threading.Thread(target=work) for _ in range(beside)]
    for one in crew:
        one.start()
    for one in crew:
        one.join()
    return len(all_well) == len(names) and all(all_well)


def is_caught(folder: Path, name: str) -> bool:
    """Whether a service with the fault planted is found out by that way of asking."""
    fault, told = PLANTED[name]
    with served(folder, planted=fault) as running:
        verdict = ask(running, name, examples=60, phases="" if name == STATEFUL else "fuzzing")
    return verdict.cases > 0 and told in verdict.report


def main() -> None:
    """Ask all; the exit status says whether all was well and the planted fault was caught."""
    parser = argparse.ArgumentParser(prog="contract")
    parser.add_argument("--long", action="store_true")
    parser.add_argument("--only")
    parser.add_argument("--beside", type=int, default=1)
    parser.add_argument("--record", type=Path)
    given = parser.parse_args()
    examples = LONG if given.long else SHORT
    names = [*operations(), STATEFUL]
    if given.only:
        names = [name for name in names if name == given.only]
    done = given.record.read_text().splitlines() if given.record and given.record.exists() else []
    left = [name for name in names if f"{name} {examples}" not in done]
    print(
        f"{len(left)} of {len(names)} runs, {examples} examples each, {given.beside} at a time; "
        f"load average {os.getloadavg()[0]:.1f}",
        flush=True,
    )
    all_well = ask_all(left, examples=examples, beside=given.beside, record=given.record)
    caught = []
    for way, (fault, _) in PLANTED.items():
        with tempfile.TemporaryDirectory() as folder:
            caught.append(is_caught(Path(folder), way))
        told = "caught" if caught[-1] else "NOT CAUGHT"
        print(f"planted fault {fault}, {way}: {told}", flush=True)
    sys.exit(not (names and all_well and all(caught)))


if __name__ == "__main__":
    main()
