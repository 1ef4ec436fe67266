"""The parts of telling every fault at once: near names, repairs, consequences, pointers."""

import copy
import itertools

import pytest
from pydantic import ValidationError

from api_schema.examples import SMALLEST_REQUEST
from api_schema.plan_request import PlanRequest
from service.errors import Fault, RequestFaults
from service.pointers import resolved
from service.translate.read.consequences import Consequences
from service.translate.read.near_names import near_names, unknown_id_words
from service.translate.read.repairs import repair
from service.translate.read.requests import read_plan_request


@pytest.mark.parametrize(
    ("given", "near"),
    [
        ("Camp_1", ["camp-1"]),
        ("camp-4", ["camp-2", "camp-1"]),
        ("zzz", []),
        ("camp-1" * 20, []),
    ],
)
def test_near_names(given, near):
    """The same letters are one name, else the likest come first, and nothing is far-fetched."""
    assert near_names(given, ["road", "camp-1", "camp-2"]) == near


def test_an_unknown_id_lists_a_dozen_known_ones():
    """Twelve of the known ids are named, and how many more there are."""
    text = unknown_id_words("place", "x", (f"place-{n}" for n in range(14)))
    assert text.startswith("There is no place x. Known are: place-0, place-1")
    assert text.endswith("place-11 and 2 more.")


@pytest.mark.parametrize(
    ("pointer", "detail", "shown"),
    [
        ("/roster/0/pack_cap", "No.", ("/roster/0", "pack_cap: No.")),
        ("/roster/0", "No.", ("/roster/0", "No.")),
        ("/roster/7/water", "No.", ("/roster", "7/water: No.")),
        ("/menu", "Write the menu.", ("", "Write the menu.")),
        ("/a~1b", "No.", ("/a~1b", "No.")),
    ],
)
def test_pointers_are_cut_back_to_what_is_there(pointer, detail, shown):
    """A pointer leads to what the document has; the rest of it stands in the text."""
    document = {"roster": [{}], "a/b": 1}
    (fault,) = resolved([Fault(pointer, "code", detail)], document)
    assert (fault.pointer, fault.detail) == shown


def errors_of(document):
    """What Pydantic has against a request."""
    with pytest.raises(ValidationError) as caught:
        PlanRequest.model_validate(document)
    return caught.value.errors()


@pytest.mark.parametrize(
    ("member", "value", "mended"),
    [
        ("roster", "x", {"roster": [{"person_id": "somebody", "pack_cap": "25 kg"}]}),
        ("title", 7, {}),
        ("start_date", "x", {"start_date": "2000-01-01"}),
        ("tittle", "one", {"title": "one"}),
    ],
)
def test_repairs(member, value, mended):
    """What cannot be read is replaced, left out, or put under the name that it should have."""
    document = {k: v for k, v in SMALLEST_REQUEST.items() if k not in {"title", member}}
    document[member] = value
    (error,) = errors_of(document)
    rest = {k: v for k, v in document.items() if k != member}
    assert repair(document, error, PlanRequest, meant=None)
    assert document == rest | mended


@pytest.mark.parametrize(
    ("replaced", "pointer", "code", "follows"),
    [
        (("title",), "/fuel/containers", "too_few_containers", False),
        (("gear", 0, "count"), "/fuel/containers", "too_few_containers", True),
        (("gear", 0, "count"), "/gear/0", "missing", True),
        (("gear", 0, "count"), "/calendar/1/0", "teleports", False),
        (("roster",), "/calendar/1/0", "teleports", False),
        (("roster",), "/gear/0/rope_team", "unknown_id", True),
        (("calendar",), "/route/legs/1", "not_joined", True),
        (("calendar",), "/sleds/0/hauler", "unknown_id", False),
        (("roster", 0, "person_id"), "/sleds/0/hauler", "unknown_id", True),
    ],
)
def test_consequences(replaced, pointer, code, follows):
    """A fault counts unless what was put in may have caused it."""
    assert Consequences.of([replaced]).has(Fault(pointer, code, "")) is follows


def groups_of_one(count, kinds):
    """A request with so many cook groups of one person, each with containers of its own."""
    document = copy.deepcopy(SMALLEST_REQUEST)
    person = document["roster"][0]
    document["roster"] = [
        person | {"person_id": f"p{n}", "cook_group": f"g{n}"} for n in range(count)
    ]
    can = {"content": "1 L", "tare": "190 g", "volume": "1.2 L"}
    document["fuel"] = {
        "containers": [
            can | {"container_id": f"can-{kind}", "cook_group": f"g{n}"}
            for n, kind in itertools.product(range(count), range(kinds))
        ]
    }
    return document


def test_thirteen_cook_groups_have_containers_of_their_own():
    """Limits follow a real expedition: 13 cook groups with two kinds of container each."""
    read = read_plan_request(groups_of_one(13, 2))
    assert [len(group.containers) for group in read.problem.cook_groups] == [2] * 13


def test_one_cook_group_has_ten_kinds_of_container_at_most():
    """Eleven kinds for one cook group are refused; two groups with that fault are both named."""
    with pytest.raises(RequestFaults) as caught:
        read_plan_request(groups_of_one(2, 11))
    faults = caught.value.faults
    assert [(f.pointer, f.code) for f in faults] == [("/fuel/containers", "too_many")] * 2
    assert [f.detail.split()[2] for f in faults] == ["g0", "g1"]


def test_one_cook_group_has_forty_night_sets_at_most():
    """With 41 night sets for everybody the request is refused."""
    night_set = {"mass": "1 kg", "volume": "2 L", "fuel": "100 mL", "storm": True}
    sets = [night_set | {"set_id": f"s{n}"} for n in range(41)]
    with pytest.raises(RequestFaults) as caught:
        read_plan_request(SMALLEST_REQUEST | {"menu": {"night_sets": sets}})
    assert ("/menu/night_sets", "too_many") in [(f.pointer, f.code) for f in caught.value.faults]
