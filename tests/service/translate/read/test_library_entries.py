"""An entry of the library is kept as it was written, or refused with every fault."""

import json

import pytest

from api_schema.examples import STORED_GEAR_LIST, STORED_MENU, STORED_ROSTER, STORED_ROUTE
from service.errors import RequestFaults
from service.translate.read.library_entries import ENTRY_MODELS, read_entry

EXAMPLES = {
    "routes": STORED_ROUTE,
    "gear-lists": STORED_GEAR_LIST,
    "menus": STORED_MENU,
    "rosters": STORED_ROSTER,
}


@pytest.mark.parametrize("kind", EXAMPLES)
def test_an_entry_in_order_is_kept_as_it_was_written(kind):
    """Title and reference stand apart; everything else is the content, to the letter."""
    assert EXAMPLES.keys() == ENTRY_MODELS.keys()
    entry = read_entry(kind, {**EXAMPLES[kind], "title": "a", "reference": "b"})
    assert (entry.title, entry.reference) == ("a", "b")
    content = json.loads(entry.content)
    sent = EXAMPLES[kind].items()
    assert {name: part for name, part in sent if name in content} == {
        name: part for name, part in sent if name not in {"title", "reference"}
    }


def test_a_gear_list_without_kits_has_none():
    """Members that may be left out are there, empty."""
    entry = read_entry("gear-lists", {"personal_kits": {}})
    assert json.loads(entry.content) == {"gear": [], "personal_kits": {}}


def test_every_fault_has_a_place_that_is_there():
    """What is missing is told at what holds it."""
    with pytest.raises(RequestFaults) as refused:
        read_entry("routes", {"route": {"legs": []}, "stray": 1})
    places = {(fault.pointer, fault.code) for fault in refused.value.faults}
    assert {("/route", "missing"), ("/stray", "unknown_field")} <= places
    assert {pointer for pointer, _ in places} <= {"/route", "/route/legs", "/stray"}
