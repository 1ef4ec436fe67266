"""Builds the image and runs it without a container engine: `run.sh image` in this folder.

It runs alone with its database file, and as the compose file of the distributed engine has it. The
network is one of its own, so that no port is taken twice. Faults are planted and must be caught.
"""

import contextlib
import ctypes
import os
import signal
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from pathlib import Path

import psycopg

from api_schema.examples import SMALLEST_REQUEST
from tests.reliability.compose import MANY, ONE, PASSWORD, parts, what_compose_says
from tests.reliability.contained import Container
from tests.reliability.image_build import Image, built, what_is_missing
from tests.service.postgres import Server, programs
from tests.service.processes import CALLER, until

URL = "http://127.0.0.1:8000"
_NEW_NETWORK = 0x40000000
_START_SECONDS = 90
_PLANS = 6
_STRANGERS = ("pip", "pytest", "ruff")
_TRIED_PLACES = ("/x", "/etc/x", "/usr/bin/x", "/opt/haulwright/x", "/opt/haulwright/bin/python")
_FREE_PLACES = ("/data/x", "/tmp/x")  # noqa: S108 - inside the image
_WRITE = "import sys; open(sys.argv[1], 'ab').close()"


class Findings:
    """What was looked at, and what was wrong with it."""

    def __init__(self) -> None:
        self.all_well = True

    def note(self, what: str, wrong: list[str]) -> None:
        """Print one line about one promise."""
        self.all_well &= not wrong
        print(f"{what}: {'; '.join(wrong) or 'ok'}", flush=True)

    def caught(self, what: str, wrong: list[str]) -> None:
        """Print one line about a planted fault, which must be among what was found."""
        self.all_well &= bool(wrong)
        print(f"planted fault, {what}: {'caught' if wrong else 'NOT CAUGHT'}", flush=True)


def wrong_settings(image: Image) -> list[str]:
    """What an engine would be told wrongly about running the image."""
    told = image.settings
    wanted = {
        "User": "10001:10001",
        "Cmd": ["python", "-m", "service"],
        "StopSignal": "SIGTERM",
        "WorkingDir": "/data",
        "Volumes": {"/data": {}},
        "ExposedPorts": {"8000/tcp": {}},
    }
    wrong = [f"{k} is {told.get(k)}" for k, value in wanted.items() if told.get(k) != value]
    return wrong + ([] if told.get("Healthcheck", {}).get("Test") else ["no health check"])


def strangers(image: Image) -> list[str]:
    """Programs and folders in the image that the service does not need."""
    paths = [image.folder / "opt/haulwright/bin" / name for name in _STRANGERS]
    paths += [image.folder / "usr/bin" / name for name in ("gcc", "cc", "git", "curl")]
    paths += [image.folder / "source", *image.folder.glob("opt/haulwright/lib/*/*/tests")]
    return [f"it has {path.relative_to(image.folder)}" for path in paths if path.exists()]


def freedoms(container: Container) -> list[str]:
    """What a running program may do that it should not, or may not do that it must."""
    status = Path(f"/proc/{container.process()}/status").read_text(encoding="ascii")
    facts = dict(line.split(":", 1) for line in status.splitlines())
    wrong = []
    if set(facts["Uid"].split()) != {"10001"} or set(facts["Gid"].split()) != {"10001"}:
        wrong.append(f"it runs as user {facts['Uid'].split()[0]}")
    if int(facts["CapEff"], 16) or int(facts["CapBnd"], 16):
        wrong.append(f"it has capabilities {facts['CapEff'].strip()}")

    def may_write(place: str) -> bool:
        return container.run_within(["python", "-c", _WRITE, place]) == 0

    wrong += [f"it may write {place}" for place in _TRIED_PLACES if may_write(place)]
    wrong += [f"it may not write {place}" for place in _FREE_PLACES if not may_write(place)]
    return wrong


def solve(count: int) -> list[str]:
    """Have the smallest request solved so often; gives what went wrong."""
    wrong = []
    for number in range(count):
        answer = CALLER.post(
            f"{URL}/v1/plans",
            json={**SMALLEST_REQUEST, "reference": f"trial {number}"},
            headers={"Prefer": "wait=60"},
            timeout=90,
        )
        if answer.json().get("outcome_kind") != "solved":
            wrong.append(f"plan {number}: {answer.status_code} {answer.text[:200]}")
    return wrong


def await_health(container: Container, command: list[str]) -> None:
    """Wait until the health check passes inside the container."""
    until(lambda: container.run_within(command) == 0, seconds=_START_SECONDS)


def stop_all(*containers: Container) -> list[str]:
    """Stop containers as an engine does; gives those that ended badly."""
    wrong = []
    for container in containers:
        begin = time.monotonic()
        status = container.stop()
        if status:
            wrong.append(f"status {status} after {time.monotonic() - begin:.1f} s")
    return wrong


@contextlib.contextmanager
def volume() -> Iterator[Path]:
    """A folder for /data that belongs to the user of the image."""
    with tempfile.TemporaryDirectory() as folder:
        data = Path(folder) / "data"
        data.mkdir()
        os.chown(data, 10001, 10001)
        yield data


@contextlib.contextmanager
def running(container: Container, command: list[str]) -> Iterator[Container]:
    """A program of the image, ended with the context; its log goes beside its volume."""
    with (container.volume.parent / "log").open("ab") as log:
        container.start(command, stdout=log, stderr=log)
    try:
        yield container
    except BaseException:
        print((container.volume.parent / "log").read_text(encoding="utf-8")[-3000:])
        raise
    finally:
        container.kill()


def try_alone(image: Image, findings: Findings) -> None:
    """One container with a database file, stopped and started again on the same volume."""
    (part,) = parts(ONE)
    health = image.settings["Healthcheck"]["Test"][1:]
    with volume() as data:
        container = Container(image, data, part.environment)
        with running(container, part.command):
            await_health(container, health)
            findings.note("alone, the smallest request is solved", solve(1))
            findings.note("alone, it has no rights but its own", freedoms(container))
            os.kill(container.process(), signal.SIGSTOP)
            dead = container.run_within(health) != 0
            findings.caught("a service that hangs", ["unhealthy"] if dead else [])
            os.kill(container.process(), signal.SIGCONT)
            findings.note("alone, it ends on SIGTERM", stop_all(container))
        with running(container, part.command):
            await_health(container, health)
            count = len(CALLER.get(f"{URL}/v1/plans").json()["plans"])
            wrong = [] if count == 1 else [f"{count} plans instead of 1"]
            findings.note("alone, its volume outlives it", wrong)
        careless = Container(image, data, part.environment, user="0", mode="rw")
        with running(careless, part.command):
            await_health(careless, health)
            findings.caught("root on a tree that may be written", freedoms(careless))


@contextlib.contextmanager
def database() -> Iterator[None]:
    """PostgreSQL with the user and the database of the compose file, on its usual port."""
    found = programs()
    if found is None:
        sys.exit("PostgreSQL is not installed.")
    server = Server(found)
    server.port = 5432
    server.start()
    try:
        address = server.make("haulwright")
        with psycopg.connect(address, autocommit=True) as connection:
            connection.execute(f"CREATE ROLE haulwright LOGIN SUPERUSER PASSWORD '{PASSWORD}'")
        yield
    finally:
        server.remove()


def try_topology(image: Image, findings: Findings) -> None:
    """What the compose file of the distributed engine has, with every health check."""
    with contextlib.ExitStack() as stack:
        stack.enter_context(database())
        started = []
        for part in parts(MANY):
            health = part.health_command or image.settings["Healthcheck"]["Test"][1:]
            for _ in range(part.replicas):
                data = stack.enter_context(volume())
                container = Container(image, data, part.environment)
                stack.enter_context(running(container, part.command))
                started.append((part.name, container, health))
        for _, container, health in started:
            await_health(container, health)
        names = [name for name, *_ in started]
        wrong = [] if sorted(names) == ["api", "worker", "worker"] else [str(names)]
        findings.note(f"the topology, {', '.join(names)}, is healthy", wrong)
        findings.note(f"the topology, {_PLANS} plans are solved", solve(_PLANS))
        for name, container, _ in started:
            findings.note(f"the topology, {name} has no rights but its own", freedoms(container))
        _, worker, health = next(entry for entry in started if entry[0] == "worker")
        os.kill(worker.process(), signal.SIGSTOP)
        time.sleep(17)
        dead = worker.run_within(health) != 0
        findings.caught("a worker that hangs", ["unhealthy"] if dead else [])
        os.kill(worker.process(), signal.SIGCONT)
        wrong = stop_all(*(container for _, container, _ in reversed(started)))
        findings.note("the topology ends on SIGTERM", wrong)


def check_compose(findings: Findings) -> None:
    """Both compose files as Docker reads them, and one with a misspelt member."""
    if what_compose_says(ONE) is None:
        print("compose files: skipped, `docker compose` is not to be had here", flush=True)
        return
    for path in (ONE, MANY):
        said = what_compose_says(path)
        findings.note(f"{path.name} is read by `docker compose config`", [said] if said else [])
    with tempfile.TemporaryDirectory() as folder:
        spoilt = Path(folder) / "compose.yaml"
        spoilt.write_text(ONE.read_text("utf-8").replace("read_only", "read_onyl"), "utf-8")
        said = what_compose_says(spoilt)
        findings.caught("a misspelt member of a compose file", [said] if said else [])


def own_network() -> None:
    """Give this process and its children a network with nothing but a loopback."""
    if ctypes.CDLL(None, use_errno=True).unshare(_NEW_NETWORK):
        raise OSError(ctypes.get_errno(), "no network of our own")
    subprocess.run(["ip", "link", "set", "lo", "up"], check=True)


def main() -> None:
    """Try everything; the exit status says whether all went as it must."""
    missing = what_is_missing()
    if missing:
        sys.exit(f"Nothing was tried: {missing}.")
    findings = Findings()
    check_compose(findings)
    begin = time.monotonic()
    with built() as image:
        took = time.monotonic() - begin
        print(f"the image is built in {took:.0f} s; its files take {image.megabytes():.0f} MB")
        findings.note("the image says how it is run", wrong_settings(image))
        findings.note("the image has nothing that it does not need", strangers(image))
        own_network()
        trials: list[Callable[[Image, Findings], None]] = [try_alone, try_topology]
        for trial in trials:
            trial(image, findings)
    sys.exit(not findings.all_well)


if __name__ == "__main__":
    main()
