"""The embedded engine: threads of the web process that take plans from the queue table."""

import logging
import threading
import time
from collections.abc import Callable

from service.errors import ServiceProblem
from service.jobs.failures import FAILED, failed_outcome
from service.jobs.supervisor import Answered, Broken, JobEnd, Supervisor
from service.storage.leases import MOST_ATTEMPTS, Claim, LeaseLostError, PlanQueue

_IDLE_SECONDS = 1.0
_SAVE_TRIES = 30

logger = logging.getLogger(__name__)


class EmbeddedEngine:
    """A number of workers; each claims a plan, has it solved in a child process, and stores it.

    `renew_seconds` is the time between two renewals of a lease [s], well under the lease itself.
    """

    def __init__(
        self,
        queue: PlanQueue,
        supervisor: Supervisor,
        *,
        workers: int,
        renew_seconds: float,
        outcome_kind: Callable[[bytes], str],
        on_finished: Callable[[str], None],
    ) -> None:
        self._queue = queue
        self._supervisor = supervisor
        self._renew_seconds = renew_seconds
        self._outcome_kind = outcome_kind
        self._on_finished = on_finished
        self._stopping = threading.Event()
        self._arrival = threading.Condition()
        self._arrivals = 0
        self._threads = [
            threading.Thread(target=self._work, name=f"worker-{number}", daemon=True)
            for number in range(workers)
        ]

    def start(self) -> None:
        """Begin to work, first on what an earlier process left behind."""
        self._supervisor.warm_up()
        for thread in self._threads:
            thread.start()

    def wake(self) -> None:
        """Say that a plan has arrived, so that an idle worker looks at once."""
        with self._arrival:
            self._arrivals += 1
            self._arrival.notify()

    def begin_stop(self) -> None:
        """Hand running plans back to the queue."""
        self._stopping.set()

    def stop(self) -> None:
        """Hand running plans back and wait until every worker has done so."""
        self.begin_stop()
        with self._arrival:
            self._arrival.notify_all()
        for thread in self._threads:
            if thread.ident is not None:
                thread.join()
        self._supervisor.close()

    def is_stopping(self) -> bool:
        """Whether running plans have been or are being handed back."""
        return self._stopping.is_set()

    def is_alive(self) -> bool:
        """Whether every worker still runs."""
        return all(thread.is_alive() for thread in self._threads)

    def _work(self) -> None:
        while not self._stopping.is_set():
            arrivals_seen = self._arrivals
            try:
                if self._work_once():
                    continue
            except ServiceProblem as problem:
                logger.warning("worker: %s", problem.code)
            except Exception:
                logger.exception("worker: unexpected fault, going on")
            with self._arrival:
                if self._arrivals == arrivals_seen and not self._stopping.is_set():
                    self._arrival.wait(_IDLE_SECONDS)

    def _work_once(self) -> bool:
        """Solve one plan; False when none waits."""
        for plan_id in self._queue.rescue(outcome_kind=FAILED, outcome_of=_crashed):
            logger.error("plan %s failed: its last attempt was abandoned", plan_id)
            self._on_finished(plan_id)
        claim = self._queue.claim()
        if claim is None:
            return False
        try:
            end = self._supervisor.run(
                claim.request_document,
                wall_seconds=claim.solve_seconds,
                on_look=LeaseKeeper(self._queue, claim, seconds=self._renew_seconds),
                must_stop=self._stopping.is_set,
            )
            self._settle(claim, end)
        except LeaseLostError:
            logger.warning("plan %s: lease lost, result dropped", claim.plan_id)
        return True

    def _settle(self, claim: Claim, end: JobEnd) -> None:
        if isinstance(end, Answered):
            kind = self._outcome_kind(end.outcome)
            self._save(claim, "failed" if kind == FAILED else "done", kind, end.outcome)
        elif isinstance(end, Broken):
            logger.error(
                "plan %s, request digest %s, attempt %s: %s",
                claim.plan_id,
                claim.request_digest,
                claim.attempt,
                end.code,
            )
            if end.worth_retrying and claim.attempt < MOST_ATTEMPTS:
                self._queue.hand_back(claim, attempt_counts=True)
            else:
                self._save(
                    claim,
                    "failed",
                    FAILED,
                    failed_outcome(end.code, request_document=claim.request_document),
                )
        else:
            self._queue.hand_back(claim, attempt_counts=False)

    def _save(self, claim: Claim, state: str, kind: str, outcome: bytes) -> None:
        """Store the outcome, with patience for a full disk; then the lease's end decides."""
        for tries_left in reversed(range(_SAVE_TRIES)):
            try:
                self._queue.finish(claim, state=state, outcome_kind=kind, outcome=outcome)
            except ServiceProblem:
                if not tries_left or self._stopping.is_set():
                    raise
                time.sleep(1)
            else:
                self._on_finished(claim.plan_id)
                return


def _crashed(request_document: bytes) -> bytes:
    return failed_outcome("solver_crashed", request_document=request_document)


class LeaseKeeper:
    """Renews a lease while a child works, and passes on the newest progress with it."""

    def __init__(self, queue: PlanQueue, claim: Claim, *, seconds: float) -> None:
        self._queue = queue
        self._claim = claim
        self._seconds = seconds
        self._renewed_at = time.monotonic()
        self._progress: bytes | None = None

    def __call__(self, progress: bytes | None) -> None:
        """Note the progress; renew when it is time."""
        self._progress = progress if progress is not None else self._progress
        if time.monotonic() - self._renewed_at < self._seconds:
            return
        self._renewed_at = time.monotonic()
        try:
            self._queue.renew(self._claim, progress_document=self._progress)
        except ServiceProblem as problem:
            # The lease may still hold when storage heals; if not, the fencing token tells.
            logger.warning("plan %s: lease not renewed, %s", self._claim.plan_id, problem.code)
        else:
            self._progress = None
