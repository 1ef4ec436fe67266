"""The courier among tenants: no webhook of one keeps those of another from being sent."""

import socket
import threading
import time
from collections import Counter
from collections.abc import Iterator
from contextlib import contextmanager

import pytest

from service.storage.leases import PlanQueue
from service.storage.plans import PlanStore
from service.storage.webhooks import WebhookOutbox
from service.webhooks import courier as courier_module
from service.webhooks.courier import Courier, room_for
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

    def faults(self, webhooks: list[tuple[str, str]]) -> list[str]:
        """What those of some that were tried failed of."""
        return [fault for one in webhooks if (fault := self.standing(one).last_fault) is not None]

    @contextmanager
    def carried(self, *, limit_seconds: float = LIMIT_SECONDS) -> Iterator[Courier]:
        """A courier at work, which tries twice."""
        courier = Courier(
            self.outbox,
            Sender(any_address=True, limit_seconds=limit_seconds),
            ("s" * 40,),
            limit_seconds=limit_seconds,
            pauses_seconds=(0.1,),
        )
        courier.start()
        try:
            yield courier
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


class Names:
    """A system that is asked for names; those under slow.example hang until they are let go."""

    def __init__(self) -> None:
        self.asked: Counter[str] = Counter()
        self.let_go = threading.Event()
        self._look_up = socket.getaddrinfo

    def __call__(self, host, *args, **options):
        """Look a name up."""
        if not str(host).endswith(".slow.example"):
            return self._look_up(host, *args, **options)
        self.asked[str(host).split(".")[1]] += 1
        self.let_go.wait(30)
        raise socket.gaierror


@pytest.fixture
def names(monkeypatch) -> Iterator[Names]:
    """What every look-up of this process goes to."""
    names = Names()
    monkeypatch.setattr(socket, "getaddrinfo", names)
    yield names
    names.let_go.set()


def test_names_that_hang_hold_up_their_own_tenant_alone(post, receiver, names):
    """Those of five tenants never end; the webhook of a sixth goes at once, its name included.

    An attempt ends at its limit, but a tenant gets no new place before its look-up has ended.
    """
    hanging = {
        tenant: [post.due(tenant, f"http://h{n}.{tenant}.slow.example/h") for n in range(6)]
        for tenant in ("t1", "t2", "t3", "t4", "t5")
    }
    good = post.due("good", receiver.url.replace("127.0.0.1", "localhost"))
    begun = time.monotonic()
    with post.carried(limit_seconds=2.0):
        until(lambda: post.state(good) == "delivered", seconds=20)
        taken = time.monotonic() - begun
        until(lambda: len(post.faults(hanging["t1"])) == 4, seconds=10)
        time.sleep(1.5)
        assert post.faults(hanging["t1"]) == ["no_answer_in_time"] * 4
        assert names.asked == dict.fromkeys(hanging, 4)
        names.let_go.set()
        until(lambda: {post.state(w) for w in hanging["t1"]} == {"given_up"}, seconds=20)
    assert taken < 1.5
    assert post.standing(good).attempts == 1


def look_ups() -> int:
    """How many threads look a name up now."""
    return sum(thread.name == "look-up" for thread in threading.enumerate())


def test_names_that_hang_have_so_many_threads_over_all_tenants(post, receiver, names, monkeypatch):
    """Nine tenants fill what is there for all, one each at last; a tenth still has a place."""
    monkeypatch.setattr(courier_module, "_MOST_PLACES", 12)
    tenants = [f"t{n}" for n in range(9)]
    hanging = [
        post.due(tenant, f"http://h{n}.{tenant}.slow.example/h")
        for tenant in tenants
        for n in range(4)
    ]
    with post.carried(limit_seconds=1.0):
        until(lambda: len(names.asked) == 9, seconds=10)
        until(lambda: len(post.faults(hanging)) == look_ups(), seconds=10)
        time.sleep(1.5)
        assert 9 <= look_ups() == names.asked.total() < 12
        good = post.due("good", receiver.url.replace("127.0.0.1", "localhost"))
        until(lambda: post.state(good) == "delivered", seconds=10)
        assert post.standing(good).attempts == 1
        assert look_ups() < 12
        names.let_go.set()
        until(lambda: {post.state(one) for one in hanging} == {"given_up"}, seconds=60)


@pytest.mark.parametrize(
    ("held", "most", "share"),
    [(0, 32, 4), (31, 1, 4), (32, 32, 3), (64, 32, 2), (96, 32, 1), (127, 1, 1), (128, 0, 0)],
)
def test_the_more_places_are_held_the_fewer_one_tenant_gets(held, most, share):
    """A quarter of all places is kept for tenants that have none."""
    assert room_for(held) == (most, share)


def test_who_comes_while_another_is_waited_for_is_served_at_once(post, receiver):
    """A receiver that takes its time keeps only its own place."""
    with receiving() as slow_receiver, post.carried(limit_seconds=6.0) as courier:
        slow_receiver.wait_seconds = 5.0
        slow = post.due("slow", slow_receiver.url)
        courier.wake()
        until(lambda: len(slow_receiver.heard) == 1, seconds=10)
        good = post.due("good", receiver.url)
        courier.wake()
        until(lambda: post.state(good) == "delivered", seconds=10)
        assert post.state(slow) == "due"
        until(lambda: post.state(slow) == "delivered", seconds=10)
