"""Two solves beside a full queue and a flood of requests: they are as good as left alone."""

import asyncio
import signal
import tempfile
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from service.storage.database import open_database
from service.storage.plans import PlanStore
from service.wiring import DEFAULT_TENANT
from tests.reliability.open_loop import Caller, Heard, Request
from tests.service.processes import RunningService, free_port, until

_WAITING = 2_400
_A_SECOND = 300
_START_SECONDS = 300


@dataclass(frozen=True)
class LeftAlone:
    """How long the slower of two solves took [s], their peaks, and what the flood was answered."""

    seconds: float
    peaks: tuple[float, ...]
    heard: Heard | None


def two_solves_beside(request: dict, flood: bytes | None) -> LeftAlone:
    """Solve a request twice side by side, with 2,400 others behind; `flood` is posted meanwhile."""
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "plans.sqlite3"
        solved = _queue(file, request)
        running = RunningService(
            environment={
                "HAULWRIGHT_PORT": str(free_port()),
                "HAULWRIGHT_DATABASE": str(file),
                "HAULWRIGHT_QUEUE_LIMIT": str(_WAITING),
            },
            log=Path(folder) / "log",
            module="service",
        )
        running.start(seconds=_START_SECONDS)
        try:
            heard = asyncio.run(_flood_until(running, solved, flood))
            plans = [running.read(plan_id) for plan_id in solved]
        finally:
            running.end(signal.SIGKILL)
    peaks = tuple(plan["outcome"]["peak"]["load_fraction"] for plan in plans)
    return LeftAlone(max(_seconds(plan) for plan in plans), peaks, heard)


def _queue(file: Path, request: dict) -> list[str]:
    """Store the two and those that wait behind them, before anybody solves."""
    engine = open_database(file)
    store = PlanStore(engine, queue_limit=10 * _WAITING)
    order = {"tenant_id": DEFAULT_TENANT, "reference": None, "solve_seconds": 60.0}
    solved = [store.accept(**order, document=request).plan_id for _ in range(2)]
    for _ in range(_WAITING):
        store.accept(**order, document=request)
    engine.dispose()
    return solved


async def _flood_until(
    running: RunningService, solved: list[str], flood: bytes | None
) -> Heard | None:
    """Post for as long as the two are solved."""
    caller = Caller(int(running.environment["HAULWRIGHT_PORT"]))
    done = asyncio.create_task(asyncio.to_thread(_until_done, running, solved))
    heard = None
    while flood is not None and not done.done():
        heard = await caller.flood(
            Request("POST", "/v1/plans", flood), a_second=_A_SECOND, seconds=2, heard=heard
        )
    await done
    await caller.close()
    return heard


def _until_done(running: RunningService, solved: list[str]) -> None:
    for plan_id in solved:
        until(lambda name=plan_id: running.read(name)["state"] == "done", seconds=_START_SECONDS)


def _seconds(plan: dict) -> float:
    begun, ended = (datetime.fromisoformat(plan[name]) for name in ("started_at", "finished_at"))
    return (ended - begun).total_seconds()
