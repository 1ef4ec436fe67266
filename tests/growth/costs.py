"""What the service's questions cost PostgreSQL: processor time of all its processes, measured."""

import os
import time
from collections.abc import Callable
from pathlib import Path

from sqlalchemy import Engine

from service.jobs import job_queue
from service.storage.database import open_database
from service.storage.leases import Claim, PlanQueue
from service.storage.plans import PlanStore
from service.storage.wishes import Wishes
from tests.growth.fleet import Costs
from tests.service.postgres import Server

_TICK = os.sysconf("SC_CLK_TCK")
REQUEST_BYTES, OUTCOME_BYTES, PROGRESS_BYTES = 31_000, 1_300_000, 600
_FINAL = {"state": "done", "outcome_kind": "solved"}


def server_seconds(first: int) -> float:
    """Processor time of a process and its children so far, with those that ended [s]."""
    ticks = 0
    for entry in Path("/proc").iterdir():
        if entry.name.isdigit():
            try:
                words = (entry / "stat").read_text("ascii", "replace").rpartition(")")[2].split()
            except OSError:
                continue
            if int(entry.name) == first:
                ticks += sum(map(int, words[11:15]))
            elif int(words[1]) == first:
                ticks += sum(map(int, words[11:13]))
    return ticks / _TICK


class _Meter:
    """Measures on one server; everything is done so often that ticks of 10 ms do not matter."""

    def __init__(self, server: Server, times: int) -> None:
        self._first = server._process.pid
        self._times = times

    def __call__(self, what: Callable[[int], object]) -> float:
        """The mean cost of doing something [s]."""
        what(0)
        before = server_seconds(self._first)
        for number in range(1, self._times):
            what(number)
        return (server_seconds(self._first) - before) / (self._times - 1)


def measure(server: Server, address: str, *, times: int) -> Costs:
    """The costs of one worker's questions on a database that is otherwise idle."""
    engine = open_database(address)
    store = PlanStore(engine, queue_limit=10**6, enqueue=job_queue.enqueue)
    queue = PlanQueue(engine, lease_ms=3_600_000)
    request = {"a": "x" * REQUEST_BYTES}
    outcome = os.urandom(OUTCOME_BYTES // 8).hex().encode() * 4
    meter = _Meter(server, times)
    for _ in range(times + 10):
        store.accept(tenant_id="t", reference=None, solve_seconds=1.0, document=request)
    claims: list[Claim] = []
    claim = meter(lambda _: claims.append(queue.claim()))
    held = claims[-1]
    renew = meter(lambda _: queue.renew(held))
    tell = meter(lambda _: queue.tell(held, b"x" * PROGRESS_BYTES))
    look = meter(lambda _: Wishes(engine).of(held))
    finish = meter(lambda n: queue.finish(claims[n], **_FINAL, outcome=outcome))
    second = meter(lambda _: _second(engine, store, queue))
    engine.dispose()
    return Costs(
        claim=claim, finish=finish, renew=renew, look=look, tell=tell, second=second,
        between=0.0,
    )  # fmt: skip


def _second(engine: Engine, store: PlanStore, queue: PlanQueue) -> None:
    """What a worker asks in each second beside its solves."""
    store.probe()
    queue.is_database_new()
    queue.rescue(outcome_kind="failed", outcome_of=lambda request: request)
    job_queue.top_up(engine)


def solve_all(server: Server, address: str, crew, seconds: list[float]) -> tuple[float, float]:
    """Have real workers solve plans that sleep so long [s].

    Gives the time to the last end and the most connections at once [s, 1]. `crew` is a context in
    which the workers run.
    """
    engine = open_database(address)
    store = PlanStore(engine, queue_limit=10**6, enqueue=job_queue.enqueue)
    with crew:
        _have_slept(store, [0.01] * 4)
        begin = time.monotonic()
        connections = _have_slept(store, seconds)
        taken = time.monotonic() - begin
    engine.dispose()
    return taken, connections


def _have_slept(store: PlanStore, seconds: list[float]) -> float:
    """Accept plans that sleep, and wait for the last; gives the most connections of workers."""
    for long in seconds:
        order = {"order": "sleep", "seconds": long, "solve_seconds": 60}
        store.accept(tenant_id="t", reference=None, solve_seconds=60.0, document=order)
    most = 0
    engine = store._engine
    asked = "SELECT count(*) FROM pg_stat_activity WHERE backend_type = 'client backend'"
    while True:
        with engine.connect() as connection:
            most = max(most, connection.exec_driver_sql(asked).scalar_one())
            left = connection.exec_driver_sql(
                "SELECT count(*) FROM plans WHERE finished_at_ms IS NULL"
            ).scalar_one()
        if left == 0:
            # One of them is ours.
            return float(most - 1)
        time.sleep(0.05)
