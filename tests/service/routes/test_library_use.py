"""A body is made whole with what it takes from the library, and its faults are led back."""

import json
from types import SimpleNamespace

import pytest

from api_schema.examples import STORED_ROUTE
from service.errors import Fault, RequestFaults
from service.routes.library_use import whole_body
from service.routes.stored_library import router
from service.storage.library import StoredEntry

ENTRY = StoredEntry(
    kind="routes",
    entry_id="two",
    version=1,
    title=None,
    reference=None,
    document=json.dumps({"route": STORED_ROUTE["route"]}).encode(),
    digest="d",
    frozen=False,
    stored_at_ms=0,
)
WIRING = SimpleNamespace(
    tenant_id="a",
    library=SimpleNamespace(
        read=lambda name, version: ENTRY if (name.entry_id, version) == ("two", 1) else None
    ),
)
NAMED = {"library": {"route": {"entry_id": "two", "version": 1}}}


def test_a_body_that_names_nothing_goes_on_untouched():
    """Its bytes are the same, and faults are passed on as they are."""
    whole = whole_body(WIRING, b'{"a":  1}')
    assert (whole.body, whole.uses) == (b'{"a":  1}', ())
    with pytest.raises(RequestFaults) as raised, whole.faults_as_sent():
        raise RequestFaults((Fault("/a", "x", "y"),))
    assert raised.value.faults == (Fault("/a", "x", "y"),)


def test_the_request_within_a_body_is_made_whole():
    """Only the request is, and a fault in the stored route points to its name in the body."""
    whole = whole_body(
        WIRING, json.dumps({"request": NAMED, "plan": {}}).encode(), within="request"
    )
    assert json.loads(whole.body) == {"request": {"route": STORED_ROUTE["route"]}, "plan": {}}
    assert [(use.entry_id, use.digest) for use in whole.uses] == [("two", "d")]
    with pytest.raises(RequestFaults) as raised, whole.faults_as_sent():
        raise RequestFaults((Fault("/request/route/legs", "x", "y."),), left_out=3)
    (fault,) = raised.value.faults
    assert fault.pointer == "/request/library/route"
    assert fault.detail == "y. This is in the stored route two, version 1, at /route/legs."
    assert raised.value.left_out == 3


def test_there_is_an_address_for_each_kind():
    """Four kinds can be stored, read and deleted under ids of their callers' choice."""
    paths = {route.path for route in router.routes if "{entry_id}" in route.path}
    assert len(paths) == 4
