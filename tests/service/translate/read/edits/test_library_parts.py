"""Parts of the library put into a request, and faults in them told where the caller can act."""

import pytest

from api_schema.examples import SMALLEST_REQUEST, STORED_GEAR_LIST, STORED_ROSTER, STORED_ROUTE
from service.errors import Fault
from service.jobs.desk_child import read_order
from service.translate.read.comparisons import read_comparison
from service.translate.read.edits.library_parts import FoundEntry, put_library_in
from service.translate.read.edits.nodes import grown, origin_of, plain

ITEMS = STORED_GEAR_LIST["gear"]
STORED = {
    ("routes", "two", 1): {"route": STORED_ROUTE["route"]},
    ("rosters", "three", 1): {"roster": STORED_ROSTER["roster"]},
    ("rosters", "three", 2): {"roster": STORED_ROSTER["roster"][:2] * 2},
    ("gear-lists", "first", 1): {"gear": ITEMS[:2], "personal_kits": {"warm": []}},
    ("gear-lists", "second", 1): {"gear": ITEMS[2:4], "personal_kits": {}},
}
OWN = {name: part for name, part in SMALLEST_REQUEST.items() if name not in {"route", "roster"}}
NAMED = {
    "route": {"entry_id": "two", "version": 1},
    "roster": {"entry_id": "three", "version": 1},
}


def find(*name):
    """A stored thing with a digest of its own."""
    return FoundEntry(STORED[name], "/".join(map(str, name))) if name in STORED else None


def put_in(document):
    """What comes of a document: the document, what was taken, and the tree."""
    root = grown(document)
    inlined = put_library_in(root, find)
    return plain(root), inlined, root


def test_a_request_says_all_by_itself_afterwards():
    """Route and roster are in their places, and nothing is left of where they came from."""
    document, inlined, _ = put_in(OWN | {"library": NAMED})
    assert document == SMALLEST_REQUEST
    assert [(one.kind, one.version, one.digest) for one in inlined.taken] == [
        ("routes", 1, "routes/two/1"),
        ("rosters", 1, "rosters/three/1"),
    ]


def test_a_request_without_any_stays_as_it_is():
    """Nothing is taken and nothing is changed."""
    document, inlined, _ = put_in(SMALLEST_REQUEST)
    assert (document, inlined.taken) == (SMALLEST_REQUEST, ())


def test_gear_lists_come_in_order_before_what_the_request_adds():
    """The items of the lists come first, kits stand beside those of the request."""
    lists = [{"entry_id": name, "version": 1} for name in ("first", "second")]
    more = {"gear": ITEMS[4:], "personal_kits": {"light": []}, "library": {"gear_lists": lists}}
    document, _, _ = put_in(SMALLEST_REQUEST | more)
    assert document["gear"] == ITEMS
    assert set(document["personal_kits"]) == {"warm", "light"}


def test_what_is_given_twice_is_a_fault():
    """A route of the request beside a stored one, and a kit of one name in both."""
    lists = [{"entry_id": "first", "version": 1}]
    _, inlined, _ = put_in(
        SMALLEST_REQUEST
        | {"library": {"route": NAMED["route"], "gear_lists": lists}}
        | {"personal_kits": {"warm": []}}
    )
    assert [(fault.pointer, fault.code) for fault in inlined.faults] == [
        ("/library/route", "given_twice"),
        ("/library/gear_lists/0", "given_twice"),
    ]


def test_every_fault_of_what_is_named_is_told():
    """A thing that is not there, and names that cannot be read."""
    _, inlined, _ = put_in(OWN | {"library": NAMED | {"menu": {"entry_id": "none", "version": 1}}})
    assert [(fault.pointer, fault.code) for fault in inlined.faults] == [
        ("/library/menu", "unknown_id")
    ]
    _, inlined, _ = put_in({"library": {"route": {"entry_id": "two"}, "boat": 1}})
    assert {(fault.pointer, fault.code) for fault in inlined.faults} == {
        ("/library/route/version", "missing"),
        ("/library/boat", "unknown_field"),
    }


@pytest.mark.parametrize("named", [3, "two", [], True])
def test_what_is_no_object_is_a_fault_of_the_whole(named):
    """The pointer is that of the member itself, and nothing is taken."""
    _, inlined, _ = put_in(OWN | {"library": named})
    assert [fault.pointer for fault in inlined.faults] == ["/library"]
    assert inlined.taken == ()


@pytest.mark.parametrize(
    ("version", "code"),
    [(0, "too_small"), (1, "unknown_id"), (1_000_000, "unknown_id"), (1_000_001, "too_large")],
)
def test_versions_are_counted_from_one_to_a_million(version, code):
    """Within the ends a version is looked for; outside it is a fault of the number."""
    named = {"menu": {"entry_id": "none", "version": version}}
    _, inlined, _ = put_in(SMALLEST_REQUEST | {"library": named})
    assert [fault.code for fault in inlined.faults] == [code]


def test_null_takes_nothing_and_is_no_fault():
    """A member that is null is as good as left out."""
    document, inlined, _ = put_in(SMALLEST_REQUEST | {"library": None})
    assert (document, inlined.faults) == (SMALLEST_REQUEST, ())


def test_a_fault_in_a_stored_thing_names_it():
    """The pointer is where the caller named the thing, the text says where in it the fault is."""
    _, inlined, root = put_in(OWN | {"library": NAMED})
    inner = origin_of(root, "/roster/1/pack_cap")
    (fault,) = inlined.as_sent([Fault(inner, "no_unit", "Write a unit.")])
    assert fault.pointer == "/library/roster"
    assert fault.detail == (
        "Write a unit. This is in the stored roster three, version 1, at /roster/1/pack_cap."
    )
    own = Fault(origin_of(root, "/calendar/0"), "x", "y")
    assert inlined.as_sent([own]) == (own,)


def test_a_variant_takes_another_version_by_its_patch():
    """Its fault is at the patch that named the version, and edits find the people of the base."""
    variants = [
        {"name": "other", "patch": {"library": {"roster": {"version": 2}}}},
        {"name": "cap", "edits": [{"edit": "cap", "person_id": "lead", "pack_cap": "26 kg"}]},
        {"name": "none", "patch": {"library": {"roster": {"version": 9}}}},
    ]
    base, other, cap, none = read_comparison(
        {"base": OWN | {"library": NAMED}, "variants": variants}, read_order, find
    )
    assert base.document == SMALLEST_REQUEST
    assert {one.kind for one in base.taken} == {"routes", "rosters"}
    assert {fault.pointer for fault in other.faults} >= {"/variants/0/patch/library/roster"}
    assert cap.document["roster"][0]["pack_cap"] == "26 kg"
    assert [fault.pointer for fault in none.faults] == ["/variants/2/patch/library/roster"]
