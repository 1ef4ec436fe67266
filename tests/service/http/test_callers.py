"""Who a request comes from: a tenant whose key was found before, or else an address."""

import asyncio

import pytest

from service.app import create_app
from service.http.callers import Callers, answered_caller
from service.server import HandingBackServer
from tests.service.fake_translation import TRANSLATION


def scope(key: str | None, address: str = "192.0.2.1", tenant: str | None = None) -> dict:
    """A request with a key, and with the tenant that it was found to be of."""
    headers = [] if key is None else [(b"authorization", f"Bearer {key}".encode())]
    state = {} if tenant is None else {"tenant_id": tenant}
    return {"type": "http", "headers": headers, "client": (address, 4711), "state": state}


def test_without_a_key_the_address_counts():
    """Two requests of one address are one caller, another address is another."""
    callers = Callers()
    assert callers.name(scope(None)) == callers.name(scope(None))
    assert callers.name(scope(None)) != callers.name(scope(None, "192.0.2.2"))
    assert callers.name({**scope(None), "client": None}) == "nobody"


def test_a_key_that_was_found_stands_for_its_tenant():
    """Two keys of one tenant are one caller from then on, wherever they come from."""
    callers = Callers()
    assert callers.name(scope("k1")) == callers.name(scope(None))
    callers.learn(scope("k1", tenant="t"))
    callers.learn(scope("k2", "192.0.2.2", tenant="t"))
    assert callers.name(scope("k1")) == callers.name(scope("k2", "192.0.2.9"))
    assert callers.name(scope("k1")) != callers.name(scope(None))


def test_made_up_keys_are_one_caller():
    """A key that nobody found counts as the address it comes from."""
    callers = Callers()
    callers.learn(scope("made up"))
    assert len({callers.name(scope(f"made up {number}")) for number in range(9)}) == 1


def test_a_key_that_is_no_longer_found_is_forgotten():
    """A key that was taken out of use counts as its address again."""
    callers = Callers()
    callers.learn(scope("k", tenant="t"))
    callers.learn(scope("k"))
    assert callers.name(scope("k")) == callers.name(scope(None))


def test_a_route_knows_the_tenant_of_its_caller_without_having_met_the_key():
    """The key was looked up before the route; where none is needed, the address counts."""
    callers = Callers()
    callers.learn(scope("k", tenant="t"))
    assert answered_caller(scope("other", tenant="t")) == callers.name(scope("k"))
    assert answered_caller(scope("k", tenant="u")) != callers.name(scope("k"))
    assert answered_caller(scope("k")) == callers.name(scope(None))
    assert answered_caller({**scope(None), "client": None}) == "nobody"


def test_only_so_many_keys_are_remembered():
    """After a thousand others, a key is looked up anew."""
    callers = Callers()
    for number in range(1_001):
        callers.learn(scope(f"k{number}", tenant=f"t{number}"))
    assert callers.name(scope("k0")) == callers.name(scope(None))
    assert callers.name(scope("k1")) == "tenant t1"


@pytest.mark.parametrize(
    ("ways", "name"),
    [
        (("127.0.0.1", None, "192.0.2.7"), "address 192.0.2.7"),
        (("127.0.0.1", None, "192.0.2.8, 192.0.2.7"), "address 192.0.2.7"),
        (("192.0.2.1", None, "192.0.2.7"), "address 192.0.2.1"),
        (("192.0.2.1", "192.0.2.9,192.0.2.1", "192.0.2.7"), "address 192.0.2.7"),
        (("127.0.0.1", "192.0.2.1", "192.0.2.7"), "address 127.0.0.1"),
        (("127.0.0.1", None, None), "address 127.0.0.1"),
    ],
)
def test_a_proxy_that_is_believed_says_who_calls(settings, monkeypatch, ways, name):
    """By default that is one on this machine; of several addresses the last counts."""
    peer, believed, forwarded = ways
    monkeypatch.delenv("FORWARDED_ALLOW_IPS", raising=False)
    if believed is not None:
        monkeypatch.setenv("FORWARDED_ALLOW_IPS", believed)
    config = HandingBackServer(create_app(settings, TRANSLATION), settings).config
    config.load()
    names = []

    async def note(scope, _receive, _send):
        names.append(Callers().name(scope))

    config.loaded_app.app = note
    sent = {**scope(None, peer), "scheme": "http"}
    if forwarded is not None:
        sent["headers"] = [(b"x-forwarded-for", forwarded.encode())]
    asyncio.run(config.loaded_app(sent, None, None))
    assert names == [name]
