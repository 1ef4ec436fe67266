"""The embedded engine: threads of the web process that take plans from the table of plans."""

import logging
import threading

from sqlalchemy import Connection

from service.errors import ServiceProblem
from service.jobs.work import PlanWork
from service.storage.leases import PlanQueue

_IDLE_SECONDS = 1.0

logger = logging.getLogger(__name__)


class EmbeddedEngine:
    """A number of workers; each claims a plan, has it solved in a child process, and stores it."""

    def __init__(self, queue: PlanQueue, work: PlanWork, *, workers: int) -> None:
        self._queue = queue
        self._plan_work = work
        self._arrival = threading.Condition()
        self._arrivals = 0
        self._threads = [
            threading.Thread(target=self._work, name=f"worker-{number}", daemon=True)
            for number in range(workers)
        ]

    def enqueue(self, connection: Connection, plan_id: str) -> None:
        """Nothing to do: the row is in the table, and the table is the queue."""

    def start(self) -> None:
        """Begin to work, first on what an earlier process left behind."""
        self._plan_work.warm_up()
        for thread in self._threads:
            thread.start()

    def wake(self) -> None:
        """Say that a plan has arrived, so that an idle worker looks at once."""
        with self._arrival:
            self._arrivals += 1
            self._arrival.notify()

    def begin_stop(self) -> None:
        """Hand running plans back to the queue."""
        self._plan_work.begin_stop()

    def stop(self) -> None:
        """Hand running plans back and wait until every worker has done so."""
        self.begin_stop()
        with self._arrival:
            self._arrival.notify_all()
        for thread in self._threads:
            if thread.ident is not None:
                thread.join()
        self._plan_work.close()

    def is_stopping(self) -> bool:
        """Whether running plans have been or are being handed back."""
        return self._plan_work.is_stopping()

    def is_alive(self) -> bool:
        """Whether every worker still runs."""
        return all(thread.is_alive() for thread in self._threads)

    def _work(self) -> None:
        while not self.is_stopping():
            arrivals_seen = self._arrivals
            try:
                if self._work_once():
                    continue
            except ServiceProblem as problem:
                logger.warning("worker: %s", problem.code)
            except Exception:
                logger.exception("worker: unexpected fault, going on")
            with self._arrival:
                if self._arrivals == arrivals_seen and not self.is_stopping():
                    self._arrival.wait(_IDLE_SECONDS)

    def _work_once(self) -> bool:
        """Solve one plan; False when none waits."""
        claim = self._queue.claim()
        if claim is None:
            return False
        self._plan_work.solve(claim)
        return True
