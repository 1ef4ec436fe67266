"""The courier: takes webhooks that are due and sends them, in a thread of each process that solves.

An attempt that fails is made again after a pause that grows; after the last one it is given up.
Each attempt ends by itself, and its place is filled again at once, so that none waits for another.
"""

import asyncio
import contextlib
import logging
import threading
import time
from collections import Counter
from datetime import UTC, datetime

from api_schema.webhook import PlanFinalWebhook
from service.errors import ServiceProblem
from service.logs import PLAN_ID
from service.storage.webhooks import DueWebhook, WebhookOutbox
from service.webhooks.look_ups import LookUp
from service.webhooks.sending import Sender, Sent
from service.webhooks.signing import signed_headers

PAUSES_SECONDS = (5.0, 30.0, 120.0, 600.0, 1800.0, 7200.0, 18_000.0)
"""The pauses between attempts, about eight hours in all [s]."""
_LOOK_SECONDS = 1.0
_MOST_AT_ONCE = 64
_MOST_PLACES = 128
"""Attempts, and look-ups that outlast theirs, of all tenants together [1]; each has a thread."""
_SHARES = 4
"""Most places of one tenant while there is room, and the parts by which room becomes scarce [1]."""
_HOLDS_PER_LIMIT = 2

logger = logging.getLogger(__name__)


class Courier:
    """Sends what is due until it is stopped; what is under way then is sent again later."""

    def __init__(
        self,
        outbox: WebhookOutbox,
        sender: Sender,
        secrets: tuple[str, ...],
        *,
        limit_seconds: float,
        pauses_seconds: tuple[float, ...] = PAUSES_SECONDS,
    ) -> None:
        """Without secrets there is nothing to send. `limit_seconds` is that of the sender [s]."""
        self._outbox = outbox
        self._sender = sender
        self._secrets = secrets
        self._hold_ms = round(_HOLDS_PER_LIMIT * limit_seconds * 1000)
        self._pauses_seconds = pauses_seconds
        self._loop: asyncio.AbstractEventLoop | None = None
        self._changed = asyncio.Event()
        self._tasks: set[asyncio.Task[None]] = set()
        self._attempts = 0
        self._places: Counter[str] = Counter()
        self._stopping = False
        self._thread = threading.Thread(target=self._carry, name="courier", daemon=True)

    def start(self) -> None:
        """Begin, first with what an earlier process left behind."""
        if self._secrets:
            self._thread.start()

    def wake(self) -> None:
        """Say that a plan is final, so that its webhook goes at once."""
        # The loop is not there before the first look, and closed after a stop.
        if self._loop is not None:
            with contextlib.suppress(RuntimeError):
                self._loop.call_soon_threadsafe(self._changed.set)

    def stop(self) -> None:
        """Take no more, and wait for what is under way."""
        self._stopping = True
        self.wake()
        if self._thread.ident is not None:
            self._thread.join()

    def _carry(self) -> None:
        with asyncio.Runner() as runner:
            self._loop = runner.get_loop()
            runner.run(self._keep_sending())

    async def _keep_sending(self) -> None:
        while not self._stopping:
            self._changed.clear()
            taken = await self._take()
            for webhook in taken:
                self._begin(webhook)
            if not taken:
                with contextlib.suppress(TimeoutError):
                    await asyncio.wait_for(self._changed.wait(), _LOOK_SECONDS)
        while self._attempts:
            self._changed.clear()
            await self._changed.wait()

    async def _take(self) -> list[DueWebhook]:
        """What is due and has a place."""
        places = dict(self._places)
        most, share = room_for(sum(places.values()))
        most = min(most, _MOST_AT_ONCE - self._attempts)
        if most <= 0:
            return []
        try:
            return await asyncio.to_thread(
                self._outbox.take,
                most=most,
                hold_ms=self._hold_ms,
                places=places,
                most_of_one=share,
            )
        except ServiceProblem as problem:
            logger.warning("courier: %s", problem.code)
        except Exception:
            logger.exception("courier: unexpected fault, going on")
        return []

    def _begin(self, webhook: DueWebhook) -> None:
        self._attempts += 1
        self._places[webhook.tenant_id] += 1
        task = asyncio.create_task(self._attempt(webhook))
        self._tasks.add(task)
        task.add_done_callback(self._tasks.discard)

    async def _attempt(self, webhook: DueWebhook) -> None:
        """One attempt from beginning to end; the tenant's place is free when its look-up ends."""
        PLAN_ID.set(webhook.plan_id)
        look_up = LookUp()
        try:
            await self._send(webhook, look_up)
        except ServiceProblem as problem:
            logger.warning("webhook %s: not settled, %s", webhook.webhook_id, problem.code)
        except Exception:
            logger.exception("webhook %s: unexpected fault", webhook.webhook_id)
        self._attempts -= 1
        self._changed.set()
        await look_up.ended()
        self._places[webhook.tenant_id] -= 1
        if not self._places[webhook.tenant_id]:
            del self._places[webhook.tenant_id]
        self._changed.set()

    async def _send(self, webhook: DueWebhook, look_up: LookUp) -> None:
        try:
            body = body_of(webhook)
            headers = signed_headers(
                self._secrets,
                tenant_id=webhook.tenant_id,
                webhook_id=webhook.webhook_id,
                sent_at_s=int(time.time()),
                body=body,
            )
        except Exception as error:  # noqa: BLE001 - given up as any failure is
            # The texts of such errors may repeat what is stored, which the log never has.
            kind = type(error).__name__
            logger.error("webhook %s: its message cannot be made, %s", webhook.webhook_id, kind)  # noqa: TRY400
            sent = Sent(fault="internal_error")
        else:
            sent = await self._sender.send(
                webhook.url, headers=headers, body=body, resolver=look_up
            )
        await asyncio.to_thread(self._settle, webhook, sent)

    def _settle(self, webhook: DueWebhook, sent: Sent) -> None:
        again = None
        if webhook.attempt <= len(self._pauses_seconds):
            again = round(self._pauses_seconds[webhook.attempt - 1] * 1000)
        self._outbox.settle(webhook, status=sent.status, fault=sent.fault, again_ms=again)
        # The address may hold a secret of the caller, so the log names only the id.
        logger.info(
            "webhook %s, attempt %s: %s",
            webhook.webhook_id,
            webhook.attempt,
            sent.fault or "delivered",
        )


def room_for(held: int) -> tuple[int, int]:
    """How many more places may be filled in one look, and the most that one tenant may then have.

    With each quarter of all places that is held, a tenant may have one less. So whoever comes while
    many look-ups hang finds a place, as long as there are fewer tenants than places.
    """
    room = _MOST_PLACES - held
    if room <= 0:
        return 0, 0
    part = -(-_MOST_PLACES // _SHARES)
    share = -(-room // part)
    return room - (share - 1) * part, share


def body_of(webhook: DueWebhook) -> bytes:
    """What is sent, the same at every attempt."""
    finished_at_ms = webhook.finished_at_ms or 0
    told = PlanFinalWebhook.model_validate(
        {
            "type": f"plan.{webhook.state}",
            "plan_id": webhook.plan_id,
            "reference": webhook.reference,
            "state": webhook.state,
            "outcome_kind": webhook.outcome_kind,
            "finished_at": datetime.fromtimestamp(finished_at_ms / 1000, UTC),
        }
    )
    return told.model_dump_json().encode()
