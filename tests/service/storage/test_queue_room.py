"""Shares of the queue: nobody fills it alone where others have keys."""

import pytest

from service.errors import ServiceProblem
from service.storage.keys import KeyStore
from service.storage.plans import PlanStore
from service.storage.queue_room import QueueRoom


@pytest.fixture
def keys(database):
    """Keys of two tenants, a and b, and one of c that is taken out of use."""
    store = KeyStore(database)
    ids = {tenant: store.make(tenant_id=tenant, scopes=("plan",)).split("_")[1] for tenant in "abc"}
    assert store.revoke(ids["c"])
    return ids


def fill(store, tenant_id):
    """How many plans of a tenant are taken until one is refused."""
    for taken in range(99):
        try:
            store.accept(tenant_id=tenant_id, reference=None, solve_seconds=1.0, document={})
        except ServiceProblem as problem:
            if problem.code != "queue_full":
                raise
            return taken
    return 99


@pytest.mark.usefixtures("keys")
def test_a_tenant_has_as_many_places_as_are_left(database):
    """So the first gets half, each further one its part, and one more always finds a place."""
    store = PlanStore(database, queue_limit=12, has_shares=True)
    assert isinstance(store.room, QueueRoom)
    assert [fill(store, tenant) for tenant in ("a", "b", "d", "e", "a")] == [6, 3, 2, 1, 0]


@pytest.mark.usefixtures("keys")
def test_what_one_tenant_is_refused_is_not_refused_to_another(database):
    """The moment for which the queue is known to be full is the tenant's own."""
    store = PlanStore(database, queue_limit=4, has_shares=True)
    fill(store, "a")
    assert store.room.is_known_full("a")
    assert not store.room.is_known_full("b")
    store.room.require("b")
    with pytest.raises(ServiceProblem, match="queue_full"):
        store.room.require("a")
    assert fill(store, "b") == 1


def test_who_is_alone_has_the_whole_queue(database, keys):
    """Without shares, and with them where nobody else has a key that is in use."""
    assert fill(PlanStore(database, queue_limit=4), "a") == 4
    KeyStore(database).revoke(keys["b"])
    assert fill(PlanStore(database, queue_limit=9, has_shares=True), "a") == 5


@pytest.mark.usefixtures("keys")
def test_the_last_place_is_anybodys_who_has_none(database):
    """With very few places one plan of each waits all the same."""
    store = PlanStore(database, queue_limit=2, has_shares=True)
    assert [fill(store, tenant) for tenant in "abd"] == [1, 1, 0]
