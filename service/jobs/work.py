"""One plan solved: claimed already, run in a child, and settled whatever came of it."""

import logging
import threading
from collections.abc import Callable
from dataclasses import dataclass
from typing import Literal, TypeVar

from service.errors import ServiceProblem
from service.jobs.failures import FAILED, failed_outcome
from service.jobs.lease_keeper import CancelWishedError, LeaseKeeper
from service.jobs.supervisor import Answered, Broken, JobEnd, NotStarted, Supervisor
from service.logs import PLAN_ID
from service.storage.leases import MOST_CRASHES, Claim, LeaseLostError, PlanQueue
from service.storage.wishes import Wishes

_FIRST_PAUSE_SECONDS = 0.2
_LONGEST_PAUSE_SECONDS = 5.0
_LONGEST_START_PAUSE_SECONDS = 30.0

T = TypeVar("T")

logger = logging.getLogger(__name__)


@dataclass(frozen=True, slots=True)
class WorkSettings:
    """How a worker works: renewals of a lease every so often [s]; the kind of an outcome."""

    renew_seconds: float
    outcome_kind: Callable[[bytes], str]


class PlanWork:
    """Solves claimed plans, one at a time for each caller; safe to share between threads."""

    def __init__(
        self,
        queue: PlanQueue,
        wishes: Wishes,
        supervisor: Supervisor,
        settings: WorkSettings,
        *,
        on_finished: Callable[[str], None],
    ) -> None:
        self._queue = queue
        self._wishes = wishes
        self._supervisor = supervisor
        self._settings = settings
        self._on_finished = on_finished
        self._stopping = threading.Event()
        self._starts_failed = 0

    def warm_up(self) -> None:
        """Have the solver loaded before the first plan comes."""
        self._supervisor.warm_up()

    def begin_stop(self) -> None:
        """Have every running plan handed back."""
        self._stopping.set()

    def is_stopping(self) -> bool:
        """Whether plans are handed back."""
        return self._stopping.is_set()

    def close(self) -> None:
        """End the process that children are forked from."""
        self._supervisor.close()

    def solve(self, claim: Claim) -> None:
        """Solve a plan and store what came of it; it is handed back if this process stops."""
        PLAN_ID.set(claim.plan_id)
        keeper = LeaseKeeper(
            self._queue, self._wishes, claim, renew_seconds=self._settings.renew_seconds
        )
        try:
            end = self._supervisor.run(
                claim.request_document,
                wall_seconds=claim.solve_seconds,
                on_look=keeper,
                must_stop=self._stopping.is_set,
            )
            self._settle(claim, end)
        except CancelWishedError:
            self._close_cancelled(claim)
        except LeaseLostError:
            logger.warning("plan %s: lease lost, result dropped", claim.plan_id)
        finally:
            PLAN_ID.set(None)

    def _close_cancelled(self, claim: Claim) -> None:
        """Close the plan, unless its caller has deleted it: in both cases it is at its end."""
        try:
            self._patiently(claim, lambda: self._queue.cancelled(claim))
        except LeaseLostError:
            logger.info("plan %s: cancelled, and gone or closed meanwhile", claim.plan_id)
        self._on_finished(claim.plan_id)

    def _settle(self, claim: Claim, end: JobEnd) -> None:
        if not isinstance(end, NotStarted):
            self._starts_failed = 0
        if isinstance(end, Answered):
            kind = self._settings.outcome_kind(end.outcome)
            self._save(claim, "failed" if kind == FAILED else "done", kind, end.outcome)
        elif isinstance(end, Broken):
            self._settle_broken(claim, end)
        else:
            self._hand_back(claim, crashed=False)
            if isinstance(end, NotStarted):
                self._pause_after_failed_start()

    def _settle_broken(self, claim: Claim, end: Broken) -> None:
        logger.error(
            "plan %s, request digest %s, attempt %s: %s",
            claim.plan_id,
            claim.request_digest,
            claim.attempt,
            end.code,
        )
        if end.worth_retrying and claim.crashes + 1 < MOST_CRASHES:
            self._hand_back(claim, crashed=True)
        else:
            outcome = failed_outcome(end.code, request_document=claim.request_document)
            self._save(claim, "failed", FAILED, outcome)

    def _hand_back(self, claim: Claim, *, crashed: bool) -> None:
        if self._patiently(claim, lambda: self._queue.hand_back(claim, crashed=crashed)):
            self._on_finished(claim.plan_id)

    def _pause_after_failed_start(self) -> None:
        """Wait longer with every start that failed in a row, until the service stops."""
        self._starts_failed = min(self._starts_failed + 1, 10)
        self._stopping.wait(min(_LONGEST_START_PAUSE_SECONDS, 0.25 * 2**self._starts_failed))

    def _save(
        self, claim: Claim, state: Literal["done", "failed"], kind: str, outcome: bytes
    ) -> None:
        def finish() -> None:
            self._queue.finish(claim, state=state, outcome_kind=kind, outcome=outcome)

        self._patiently(claim, finish)
        self._on_finished(claim.plan_id)

    def _patiently(self, claim: Claim, write: Callable[[], T]) -> T:
        """Write, again and again while the storage is unavailable.

        So a result is kept and not solved anew. Only a stop of the service ends the patience.
        """
        pause_seconds = _FIRST_PAUSE_SECONDS
        while True:
            try:
                return write()
            except ServiceProblem as problem:
                logger.warning("plan %s: not stored yet, %s", claim.plan_id, problem.code)
                if self._stopping.is_set():
                    raise
            self._stopping.wait(pause_seconds)
            pause_seconds = min(2 * pause_seconds, _LONGEST_PAUSE_SECONDS)
