"""Below the application: deadlines, refusals as problem documents, and floods of connections."""

import contextlib
import json
import resource
import select
import socket
import subprocess
import sys
import time
from collections.abc import Iterator
from pathlib import Path

import httpx
import pytest

from service.http import connection
from service.http.connection import ConnectionLimits, GuardedProtocol
from service.server import connection_limits
from service.settings import Settings
from tests.service.processes import CALLER, RunningService, free_port, until

CONNECTIONS, HEADER_SECONDS, ROOM_BYTES = 430, 2, 1_000_000
ROOT = Path(__file__).parents[3]


@contextlib.contextmanager
def _serving(folder: Path, header_seconds: int) -> Iterator[RunningService]:
    """A service with little room and the given deadline for headers [s]."""
    running = RunningService(
        environment={
            "HAULWRIGHT_PORT": str(free_port()),
            "HAULWRIGHT_DATABASE": str(folder / "plans.sqlite3"),
            "HAULWRIGHT_SOLVE_MEMORY_MB": "400",
            "HAULWRIGHT_CONNECTION_LIMIT": str(CONNECTIONS),
            "HAULWRIGHT_HEADER_SECONDS": str(header_seconds),
            "HAULWRIGHT_READING_SECONDS": "2",
            "HAULWRIGHT_BODY_ROOM_BYTES": str(ROOM_BYTES),
            "HAULWRIGHT_CORS_ORIGINS": "https://trips.example",
        },
        log=folder / "log",
    )
    running.start()
    yield running
    running.process.kill()
    running.process.wait()


@pytest.fixture(scope="module")
def service(tmp_path_factory) -> Iterator[RunningService]:
    """A service with short deadlines and little room."""
    with _serving(tmp_path_factory.mktemp("connections"), HEADER_SECONDS) as running:
        yield running


@pytest.fixture
def patient_service(tmp_path) -> Iterator[RunningService]:
    """A service that gives callers time, so that none of a flood is closed while it comes in."""
    with _serving(tmp_path, 60) as running:
        yield running


def connect(service: RunningService) -> socket.socket:
    """A connection on which nothing was said yet."""
    port = int(service.environment["HAULWRIGHT_PORT"])
    return socket.create_connection(("127.0.0.1", port), timeout=20)


def rest(caller: socket.socket) -> bytes:
    """Everything that comes until the service closes the connection."""
    parts = []
    with contextlib.suppress(ConnectionError):
        while part := caller.recv(65_536):
            parts.append(part)
    return b"".join(parts)


def say(service: RunningService, text: bytes) -> tuple[int, dict, dict[str, str]]:
    """Status, problem and headers of the answer to a text, after which the service closes."""
    with connect(service) as caller:
        caller.sendall(text)
        head, _, body = rest(caller).partition(b"\r\n\r\n")
    first, *lines = head.decode().split("\r\n")
    headers = {name.lower(): value for name, _, value in (line.partition(": ") for line in lines)}
    return int(first.split()[1]), json.loads(body), headers


@pytest.mark.parametrize(
    ("text", "status", "code"),
    [
        (b"NONSENSE\r\n\r\n", 400, "malformed_request"),
        (b"GET / HTTP/1.1\r\n\r\n", 400, "malformed_request"),
        (b"GET / HTTP/1.1\r\nHost: localhost\r\nA b: c\r\n\r\n", 400, "malformed_request"),
        (b"GET / HTTP/1.1\r\nHost: localhost\r\nA: " + b"x" * 99_000, 431, "headers_too_large"),
        (b"GET /" + b"x" * 99_000, 431, "headers_too_large"),
        (b"GET / HTTP/1.1\r\nHost: other.example\r\n\r\n", 421, "host_unknown"),
        (
            (
                b"POST / HTTP/1.1\r\nHost: localhost\r\nContent-Length: 5\r\nTransfer-Encoding: "
                b"chunked\r\n\r\n0\r\n\r\nGET /healthz HTTP/1.1\r\n\r\n"
            ),
            400,
            "malformed_request",
        ),
        (b"GET /healthz HTTP/1.1\r\nHost: local", 408, "headers_too_slow"),
        (b"", 408, "headers_too_slow"),
    ],
    ids=[
        "nonsense",
        "no host",
        "a header",
        "headers",
        "first line",
        "host",
        "lengths",
        "slow",
        "-",
    ],
)
def test_what_is_refused_below_the_application_is_a_problem_document(service, text, status, code):
    """Each refusal has its status, its code and the headers of every answer, and then it closes."""
    found, problem, headers = say(service, text)
    assert (found, problem["code"], problem["status"]) == (status, code, status)
    assert headers["content-type"] == "application/problem+json"
    assert headers["connection"].lower() == "close"
    assert headers["x-content-type-options"] == "nosniff"
    assert len(headers["x-request-id"]) == 16
    counted = CALLER.get(f"{service.url}/metrics").text
    assert f'haulwright_http_refusals_total{{code="{code}"}}' in counted


def test_a_caller_who_sends_headers_bit_by_bit_is_let_go(service):
    """The deadline is for all headers, and one more byte does not lengthen it."""
    begin = time.monotonic()
    with connect(service) as caller, contextlib.suppress(ConnectionError):
        while time.monotonic() - begin < 15:
            caller.sendall(b"G" if time.monotonic() - begin < 0.1 else b"x")
            time.sleep(0.2)
    assert time.monotonic() - begin < HEADER_SECONDS + 4


def test_a_connection_may_be_used_again(service):
    """A caller who asks again within the time, after an answer, is not taken for a slow one."""
    with httpx.Client() as caller:
        for pause in (0, HEADER_SECONDS + 1.5, 0):
            time.sleep(pause)
            assert caller.get(f"{service.url}/healthz").status_code == 200


def test_the_log_has_one_line_for_a_request_and_never_its_query(service):
    """What stands in a query may be a name; and health is asked too often to be logged."""
    asked = {"X-Request-Id": "watched-1"}
    CALLER.get(f"{service.url}/v1/plans?reference=of-somebody", headers=asked)
    CALLER.get(f"{service.url}/healthz?of-somebody", headers={"X-Request-Id": "watched-2"})
    lines = service.log.read_text(encoding="utf-8").splitlines()
    assert len([line for line in lines if "watched-1" in line]) == 1
    assert not [line for line in lines if "watched-2" in line or "of-somebody" in line]


def _is_held(caller: socket.socket) -> bool:
    """Whether the service still has its end of a connection open, by the table of the system."""
    here, there = (f"{port:04X}" for port in (caller.getpeername()[1], caller.getsockname()[1]))
    for line in Path("/proc/net/tcp").read_text(encoding="ascii").splitlines()[1:]:
        _, local, remote, state, *_ = line.split()
        if local.endswith(f":{here}") and remote.endswith(f":{there}"):
            return state == "01"
    return False


def test_a_caller_who_does_not_read_is_let_go(service):
    """An answer that nobody takes does not stay in the memory."""
    ask = b"GET /openapi.json HTTP/1.1\r\nHost: localhost\r\n\r\n"
    with socket.socket() as caller:
        caller.setsockopt(socket.SOL_SOCKET, socket.SO_RCVBUF, 4096)
        caller.settimeout(30)
        caller.connect(("127.0.0.1", int(service.environment["HAULWRIGHT_PORT"])))
        caller.sendall(ask * 40)
        until(lambda: not _is_held(caller), seconds=20)
        taken = len(rest(caller))
    whole = len(CALLER.get(f"{service.url}/openapi.json").content)
    assert taken < 40 * whole


def test_four_hundred_slow_connections_do_no_harm(service):
    """Others are answered at once beside them, and they are gone after their deadline."""
    with contextlib.ExitStack() as open_ones:
        slow = [open_ones.enter_context(connect(service)) for _ in range(400)]
        for caller in slow:
            caller.sendall(b"GET /healthz HTTP/1.1\r\nHost: localhost\r\nX-Slow: ")
        taken = []
        with httpx.Client() as caller:
            for _ in range(20):
                begin = time.monotonic()
                assert caller.get(f"{service.url}/healthz").status_code == 200
                taken.append(time.monotonic() - begin)
        until(lambda: slow[-1].recv(65_536).startswith(b"HTTP/1.1 408"), seconds=20)
    assert sorted(taken)[10] < 0.05


def test_one_connection_too_many_is_told_so_and_a_flood_is_closed(patient_service):
    """Beyond the limit a request is answered 503, and far beyond it nobody waits for one."""
    with contextlib.ExitStack() as open_ones:
        flood = [
            open_ones.enter_context(connect(patient_service)) for _ in range(CONNECTIONS + 100)
        ]
        flood[CONNECTIONS + 10].sendall(
            b"GET /healthz HTTP/1.1\r\nHost: localhost\r\nOrigin: https://trips.example\r\n"
            b"X-Request-Id: too-many-1\r\n\r\n"
        )
        answer = rest(flood[CONNECTIONS + 10])
        assert answer.startswith(b"HTTP/1.1 503")
        assert b'"code":"too_many_connections"' in answer
        assert b"retry-after: 5" in answer.lower()
        assert b"access-control-allow-origin: https://trips.example" in answer.lower()
        assert b"x-request-id: too-many-1" in answer.lower()
        assert rest(flood[-1]) == b""
    until(patient_service.is_healthy)
    counted = CALLER.get(f"{patient_service.url}/metrics").text
    # Health may have been asked for in vain until the flood had gone.
    assert 'haulwright_http_refusals_total{code="too_many_connections"} ' in counted
    assert 'haulwright_http_answers_total{method="GET",status="503"} ' in counted


def test_bodies_share_a_room(service):
    """A body for which there is none is refused, and taken once the other one is answered."""
    head = b"POST /v1/plans HTTP/1.1\r\nHost: localhost\r\nContent-Type: application/json\r\n"
    length = 900_000
    filler = {"filler": "x" * 200_000}

    def second() -> httpx.Response:
        return CALLER.post(f"{service.url}/v1/plans", json=filler, timeout=30)

    with contextlib.ExitStack() as open_ones:
        firsts: list[socket.socket] = []

        def is_full() -> bool:
            # Of two that come at once either may be refused; a first one that was, comes again.
            if not firsts or select.select(firsts[-1:], [], [], 0)[0]:
                firsts.append(open_ones.enter_context(connect(service)))
                beginning = b"Content-Length: %d\r\n\r\n{" % length + b" " * (length - 2)
                firsts[-1].sendall(head + beginning)
            return second().status_code == 503

        until(is_full)
        refused = second()
        assert (refused.json()["code"], refused.headers["Retry-After"]) == ("too_busy", "2")
        firsts[-1].sendall(b"}")
        firsts[-1].recv(100)
    until(lambda: second().status_code == 202)


def test_running_out_of_open_files_neither_spins_nor_floods_the_log(tmp_path):
    """With two hundred open files in all, a flood costs next to nothing, and then all is well."""
    environment = {
        "HAULWRIGHT_PORT": str(free_port()),
        "HAULWRIGHT_DATABASE": str(tmp_path / "plans.sqlite3"),
        "HAULWRIGHT_HEADER_SECONDS": "60",
    }
    service = RunningService(environment=environment, log=tmp_path / "log")
    with service.log.open("ab") as log:
        service.process = subprocess.Popen(
            [sys.executable, "-c", _WITH_FEW_FILES],
            env={**environment},
            cwd=ROOT,
            stdout=log,
            stderr=log,
        )
    try:
        until(service.is_healthy, seconds=60)
        before = service.log.stat().st_size
        with contextlib.ExitStack() as open_ones:
            for _ in range(400):
                with contextlib.suppress(OSError):
                    open_ones.enter_context(connect(service))
            begin = _processor_seconds(service.process.pid)
            time.sleep(3)
            assert _processor_seconds(service.process.pid) - begin < 1.0
        until(service.is_healthy)
        assert service.log.stat().st_size - before < 20_000
    finally:
        service.process.kill()
        service.process.wait()


def test_no_open_file_left_neither_spins_nor_floods_the_log(patient_service):
    """Where the system refuses to open one more, nobody is answered for a while, and then all are.

    Files run out under the service, below what it found allowed at its start.
    """
    process = patient_service.process.pid
    until(lambda: CALLER.get(f"{patient_service.url}/readyz").status_code == 200, seconds=60)
    before = patient_service.log.stat().st_size
    allowed = resource.prlimit(process, resource.RLIMIT_NOFILE)
    held = len([*Path(f"/proc/{process}/fd").iterdir()])
    resource.prlimit(process, resource.RLIMIT_NOFILE, (held + 3, allowed[1]))
    with contextlib.ExitStack() as open_ones:
        for _ in range(100):
            open_ones.enter_context(connect(patient_service))
        begin = _processor_seconds(process)
        time.sleep(3)
        assert _processor_seconds(process) - begin < 1.0
        assert len([*Path(f"/proc/{process}/fd").iterdir()]) == held + 3
    assert 0 < patient_service.log.stat().st_size - before < 20_000
    resource.prlimit(process, resource.RLIMIT_NOFILE, allowed)
    until(patient_service.is_healthy)


_WITH_FEW_FILES = """
import resource, runpy
resource.setrlimit(resource.RLIMIT_NOFILE, (200, 200))
runpy.run_module("tests.service.serve", run_name="__main__")
"""


def _processor_seconds(process: int) -> float:
    """What a process has used [s]."""
    fields = Path(f"/proc/{process}/stat").read_text().rpartition(")")[2].split()
    return (int(fields[11]) + int(fields[12])) / 100


def test_the_limit_of_connections_fits_the_open_files_that_are_allowed(monkeypatch):
    """Where few are allowed, fewer connections are taken, so that the database has its files."""
    monkeypatch.setattr(resource, "getrlimit", lambda _: (200, 200))
    monkeypatch.setattr(resource, "setrlimit", lambda *_: None)
    limits = connection_limits(Settings(connection_limit=500))
    assert limits.connections == 50
    assert isinstance(limits, ConnectionLimits)
    monkeypatch.setattr(resource, "getrlimit", lambda _: (4096, 4096))
    assert connection_limits(Settings(connection_limit=500)).connections == 500
    assert issubclass(GuardedProtocol, connection.H11Protocol)
