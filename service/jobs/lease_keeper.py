"""What a worker does for its plan while a child works on it."""

import logging
import time

from service.errors import ServiceProblem
from service.storage.leases import Claim, PlanQueue
from service.storage.wishes import Wishes

LOOK_SECONDS = 0.3
"""Time between two looks at what the caller wishes [s]."""

logger = logging.getLogger(__name__)


class CancelWishedError(Exception):
    """The caller has cancelled the plan."""


class LeaseKeeper:
    """Renews a lease while a child works, stores its progress, and hears the caller's wish.

    `renew_seconds` is the time between two renewals [s], well under the lease itself.
    """

    def __init__(
        self, queue: PlanQueue, wishes: Wishes, claim: Claim, *, renew_seconds: float
    ) -> None:
        self._queue = queue
        self._wishes = wishes
        self._claim = claim
        self._renew_seconds = renew_seconds
        self._renewed_at = self._looked_at = time.monotonic()
        self._wants_end = False

    def __call__(self, progress: bytes | None) -> bool:
        """Store the progress or renew when it is time; whether the caller wants what there is.

        Raises CancelWishedError, and LeaseLostError where another worker may hold the plan.
        """
        now = time.monotonic()
        try:
            if now - self._looked_at >= LOOK_SECONDS:
                self._looked_at = now
                self._hear()
            if progress is not None:
                self._renewed_at = now
                self._queue.tell(self._claim, progress)
            elif now - self._renewed_at >= self._renew_seconds:
                self._renewed_at = now
                self._queue.renew(self._claim)
        except ServiceProblem as problem:
            # The lease may still hold when storage heals; if not, the fencing token tells. Whoever
            # is late asks again soon, so that nobody takes a plan that is worked on.
            self._renewed_at = now - self._renew_seconds + LOOK_SECONDS
            logger.warning("plan %s: lease not renewed, %s", self._claim.plan_id, problem.code)
        return self._wants_end

    def _hear(self) -> None:
        wish = self._wishes.of(self._claim)
        if wish == "cancel":
            raise CancelWishedError(self._claim.plan_id)
        self._wants_end = wish == "finish"
