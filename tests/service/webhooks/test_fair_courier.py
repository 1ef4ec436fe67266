"""The courier among tenants: no webhook of one keeps those of another from being sent."""

from collections.abc import Iterator
from contextlib import contextmanager

import pytest

from service.storage.leases import PlanQueue
from service.storage.plans import PlanStore
from service.storage.webhooks import WebhookOutbox
from service.webhooks.courier import Courier
from service.webhooks.sending import Sender
from tests.service.processes import until
from tests.service.storage.plans_in_store import FINAL
from tests.service.webhooks.receiver import Receiver, receiving

LIMIT_SECONDS = 1.0


@pytest.fixture
def receiver() -> Iterator[Receiver]:
    """A caller's own server."""
    with receiving() as running:
        yield running


class Post:
    """Webhooks that are due, and a courier that sends them."""

    def __init__(self, database) -> None:
        self.outbox = WebhookOutbox(database)
        self._store = PlanStore(database, queue_limit=99)
        self._queue = PlanQueue(database, lease_ms=60_000)

    def due(self, tenant_id: str, url: str) -> tuple[str, str]:
        """A webhook of a tenant that is due now: whose, and of which plan."""
        plan = self._store.accept(
            tenant_id=tenant_id, reference=None, solve_seconds=1.0, document={}, webhook_url=url
        )
        self._queue.finish(self._queue.claim(plan.plan_id), **FINAL)
        return tenant_id, plan.plan_id

    def standing(self, webhook: tuple[str, str]):
        """How a webhook stands."""
        tenant_id, plan_id = webhook
        return self.outbox.of_plan(tenant_id=tenant_id, plan_id=plan_id)

    def state(self, webhook: tuple[str, str]) -> str:
        """The state of a webhook."""
        return self.standing(webhook).state

    @contextmanager
    def carried(self, **options) -> Iterator[None]:
        """A courier at work, which tries twice."""
        courier = Courier(
            self.outbox,
            Sender(any_address=True, limit_seconds=LIMIT_SECONDS, **options),
            ("s" * 40,),
            limit_seconds=LIMIT_SECONDS,
            pauses_seconds=(0.1,),
        )
        courier.start()
        try:
            yield
        finally:
            courier.stop()


@pytest.fixture
def post(database) -> Post:
    """Webhooks in the fresh database."""
    return Post(database)


@pytest.mark.parametrize("host", ["a" * 64 + ".example", "trips..example"])
def test_an_address_that_nobody_can_look_up_stops_no_other_webhook(post, receiver, host):
    """It is tried and given up by itself, and that of another tenant arrives at the first try."""
    receiver.wait_seconds = 0.1
    bad, good = post.due("one", f"http://{host}/h"), post.due("two", receiver.url)
    with post.carried():
        until(lambda: post.state(good) == "delivered", seconds=10)
        until(lambda: post.state(bad) == "given_up", seconds=10)
    assert post.standing(bad).last_fault == "no_address"
    assert post.standing(good).attempts == 1
