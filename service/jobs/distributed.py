"""The distributed engine: API processes that never solve, and workers on any number of machines."""

import asyncio
import contextlib
import logging
import threading
from collections.abc import AsyncIterator
from concurrent.futures import ThreadPoolExecutor

from procrastinate import App
from sqlalchemy import Connection
from sqlalchemy import Engine as Database

from service.errors import ServiceProblem
from service.jobs import job_queue
from service.jobs.lookout import Rescuer
from service.jobs.work import PlanWork
from service.storage.leases import PlanQueue

_POLL_SECONDS = 2.0
_BEAT_SECONDS = 5.0
_AGAIN_SECONDS = 1.0

logger = logging.getLogger(__name__)


class DistributedEngine:
    """What an API process has of the engine: it tells the queue of plans, and others solve them."""

    def __init__(self) -> None:
        self._stopping = threading.Event()

    def enqueue(self, connection: Connection, plan_id: str) -> None:
        """Tell of a new plan, in the transaction that stores it."""
        job_queue.enqueue(connection, plan_id)

    def start(self) -> None:
        """Nothing to do: workers run elsewhere."""

    def wake(self) -> None:
        """Nothing to do: the queue wakes a worker when the transaction is committed."""

    def begin_stop(self) -> None:
        """Take no more requests."""
        self._stopping.set()

    def stop(self) -> None:
        """Take no more requests; nothing runs here."""
        self.begin_stop()

    def is_stopping(self) -> bool:
        """Whether this process stops."""
        return self._stopping.is_set()

    def is_alive(self) -> bool:
        """There is nothing here that could die."""
        return True


class QueueKeeper(Rescuer):
    """Rescues abandoned plans, and sees that every plan that waits has a job."""

    def __init__(self, queue: PlanQueue, database: Database, *, lease_seconds: float) -> None:
        super().__init__(queue, lease_seconds=lease_seconds)
        self._database = database

    def __call__(self) -> list[str]:
        """Rescue, then top up; gives the names of plans that are final now."""
        closed = super().__call__()
        job_queue.top_up(self._database)
        return closed


class PoolWorker:
    """A process that takes jobs and solves, so many at a time, until it is told to stop.

    Solves run in threads of their own. When the database goes away the loop is begun anew, and a
    thread that has a result keeps it until the database takes it.
    """

    def __init__(self, address: str, queue: PlanQueue, work: PlanWork, *, workers: int) -> None:
        self._address = address
        self._queue = queue
        self._plan_work = work
        self._workers = workers
        # Python's own threads for such work are too few, and shared with all who ask for one.
        self._threads = ThreadPoolExecutor(workers, thread_name_prefix="worker")
        self._takes_jobs = False
        self._stop_asked = asyncio.Event()

    def stop(self) -> None:
        """Hand running plans back and end; to be called in the event loop."""
        self._plan_work.begin_stop()
        self._stop_asked.set()

    def takes_jobs(self) -> bool:
        """Whether the queue of jobs was reached, and is listened to."""
        return self._takes_jobs

    async def run(self) -> None:
        """Work until told to stop."""
        self._plan_work.warm_up()
        while not self._stop_asked.is_set():
            try:
                await self._take_jobs(job_queue.job_app(self._address))
            except Exception:
                logger.exception("worker: the queue of jobs failed, beginning anew")
                with contextlib.suppress(TimeoutError):
                    await asyncio.wait_for(self._stop_asked.wait(), _AGAIN_SECONDS)
        self._plan_work.begin_stop()
        await asyncio.to_thread(self._threads.shutdown)
        self._plan_work.close()

    async def _take_jobs(self, app: App) -> None:
        @app.task(name=job_queue.TASK, queue=job_queue.QUEUE)
        async def solve(plan_id: str) -> None:  # noqa: ARG001 - the plan whose turn it is goes first
            loop = asyncio.get_running_loop()
            await loop.run_in_executor(self._threads, self._work_once)

        async with app.open_async(), self._open_queue():
            taking = asyncio.create_task(
                app.run_worker_async(
                    queues=[job_queue.QUEUE],
                    concurrency=self._workers,
                    fetch_job_polling_interval=_POLL_SECONDS,
                    update_heartbeat_interval=_BEAT_SECONDS,
                    delete_jobs="always",
                    install_signal_handlers=False,
                )
            )
            stopping = asyncio.create_task(self._stop_asked.wait())
            await asyncio.wait({taking, stopping}, return_when=asyncio.FIRST_COMPLETED)
            stopping.cancel()
            taking.cancel()
            with contextlib.suppress(asyncio.CancelledError):
                await taking

    @contextlib.asynccontextmanager
    async def _open_queue(self) -> AsyncIterator[None]:
        self._takes_jobs = True
        try:
            yield
        finally:
            self._takes_jobs = False

    def _work_once(self) -> None:
        """Solve the plan whose turn it is, if there is one."""
        if self._plan_work.is_stopping():
            return
        try:
            claim = self._queue.claim()
            if claim is not None:
                self._plan_work.solve(claim)
        except ServiceProblem as problem:
            logger.warning("worker: %s", problem.code)
