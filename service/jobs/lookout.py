"""What every process of the service looks after, again and again, in a thread of its own.

It sees whether the storage takes writes, keeps its log short, hears of plans that another process
finished, removes what is kept no longer, and, where plans are solved, puts abandoned plans back
into the queue.
"""

import logging
import threading
import time
from collections.abc import Callable, Iterator

from service.errors import ServiceProblem
from service.jobs.completions import Completions
from service.jobs.failures import FAILED, failed_outcome
from service.storage.leases import PlanQueue
from service.storage.plans import PlanStore
from service.storage.wishes import Wishes

_TURN_SECONDS = 0.25
_PROBE_SECONDS = 1.0
_STALE_SECONDS = 4.0
"""Age at which the newest probe proves nothing any more, because its successor hangs [s]."""
_FIRST_CLEAN_SECONDS, _CLEAN_SECONDS = 60.0, 3600.0
_FROZEN_SECONDS = 5.0
"""A shorter time between two turns is a busy machine, not a frozen process [s]."""

logger = logging.getLogger(__name__)


class Lookout:
    """Looks around until it is stopped. Without a rescuer it leaves plans alone."""

    def __init__(
        self,
        store: PlanStore,
        wishes: Wishes,
        completions: Completions,
        rescuer: "Rescuer | None",
        *,
        clean: Callable[[], Iterator[object]] = lambda: iter(()),
    ) -> None:
        """`clean` is begun a minute after the start, and every hour; each turn takes one step."""
        self._store = store
        self._wishes = wishes
        self._completions = completions
        self._rescuer = rescuer
        self._clean = clean
        self._stopping = threading.Event()
        self._probed_at: float | None = None
        self._thread = threading.Thread(target=self._look, name="lookout", daemon=True)

    def start(self) -> None:
        """Probe once, then go on in the background."""
        self._probe()
        self._thread.start()

    def stop(self) -> None:
        """Look no more."""
        self._stopping.set()
        if self._thread.ident is not None:
            self._thread.join()

    def storage_answers(self) -> bool:
        """Whether the storage took a write a moment ago. This is quick and never waits."""
        probed_at = self._probed_at
        return probed_at is not None and time.monotonic() - probed_at < _STALE_SECONDS

    def _look(self) -> None:
        probe_at = time.monotonic() + _PROBE_SECONDS
        clean_at = time.monotonic() + _FIRST_CLEAN_SECONDS
        cleaning: Iterator[object] = iter(())
        while not self._stopping.wait(_TURN_SECONDS):
            if time.monotonic() >= probe_at:
                self._probe()
                probe_at = time.monotonic() + _PROBE_SECONDS
            try:
                if time.monotonic() >= clean_at:
                    clean_at = time.monotonic() + _CLEAN_SECONDS
                    cleaning = self._clean()
                self._take_step(cleaning)
                self._hear_of_others()
                self._store.tidy()
            except ServiceProblem:
                self._note_fault()
            except Exception:
                logger.exception("lookout: unexpected fault, going on")

    def _take_step(self, cleaning: Iterator[object]) -> None:
        """Clean a little. A fault ends the cleaning of this hour; of the storage a probe tells."""
        try:
            next(cleaning, None)
        except ServiceProblem as problem:
            logger.warning("lookout: nothing more is removed for now, %s", problem.code)

    def _probe(self) -> None:
        try:
            self._store.probe()
            self._probed_at = time.monotonic()
            if self._rescuer is not None:
                for plan_id in self._rescuer():
                    self._completions.announce(plan_id)
        except ServiceProblem:
            self._note_fault()
        except Exception:
            logger.exception("lookout: unexpected fault, going on")
            self._note_fault()

    def _note_fault(self) -> None:
        self._probed_at = None
        if self._rescuer is not None:
            self._rescuer.wait_a_lease()

    def _hear_of_others(self) -> None:
        waited_for = self._completions.waited_for()
        if waited_for:
            for plan_id in self._wishes.final_among(waited_for):
                self._completions.announce(plan_id)


class Rescuer:
    """Puts abandoned plans back into the queue.

    After a fault of the storage, a start of its server, or a time in which this process was
    frozen, it waits for the time of one lease: every worker that lives gets to renew its lease or
    to store its result first.
    """

    def __init__(self, queue: PlanQueue, *, lease_seconds: float) -> None:
        self._queue = queue
        self._lease_seconds = lease_seconds
        self._not_before = 0.0
        self._called_at = time.monotonic()
        self._was_set_back = False

    def __call__(self) -> list[str]:
        """Rescue unless it is too early; gives the names of plans that are final now."""
        now = time.monotonic()
        if now - self._called_at > max(self._lease_seconds, _FROZEN_SECONDS):
            # This process was frozen; its own workers come back now, too.
            self.wait_a_lease()
        self._called_at = now
        self._see_clock()
        if now < self._not_before or self._queue.is_database_new():
            return []
        closed = self._queue.rescue(outcome_kind=FAILED, outcome_of=_abandoned)
        for plan_id in closed:
            logger.error("plan %s is closed: its last attempt was abandoned", plan_id)
        return closed

    def _see_clock(self) -> None:
        """Let whoever lives renew a lease that was given before the clock was set back."""
        was_set_back, self._was_set_back = self._was_set_back, self._queue.has_lease_too_far()
        if self._was_set_back and not was_set_back:
            self.wait_a_lease()

    def wait_a_lease(self) -> None:
        """Note that the storage failed just now."""
        self._not_before = time.monotonic() + self._lease_seconds


def _abandoned(request_document: bytes) -> bytes:
    return failed_outcome("solver_abandoned", request_document=request_document)
