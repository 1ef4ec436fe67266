"""A comparison read into the requests of its variants."""

import json
from pathlib import Path

import pytest

from service.errors import RequestFaults, ServiceProblem
from service.translate.read.comparisons import read_comparison
from service.translation import read_order

EXAMPLES = Path(__file__).parents[4] / "examples"
BASE = json.loads((EXAMPLES / "smallest-request.json").read_text(encoding="utf-8"))
FOURTH = {"person_id": "fourth", "pack_cap": "22 kg"}


def variants(*told: dict, **facts: object) -> tuple:
    """The variants of a comparison, without the base."""
    return read_comparison({"base": BASE, "variants": list(told), **facts}, read_order)[1:]


def test_the_base_comes_first_and_stays_as_it_is():
    """The first to be solved is the base itself, whatever the variants change."""
    base, _ = read_comparison(
        {"base": BASE, "variants": [{"name": "later", "patch": {"start_date": "2027-06-01"}}]},
        read_order,
    )
    assert (base.name, base.document, base.faults) == ("base", BASE, ())


def test_edits_come_after_the_patch_and_in_order():
    """A patch sets the cap, the edits find it there and change it twice."""
    roster = [BASE["roster"][0] | {"pack_cap": "30 kg"}, *BASE["roster"][1:]]
    caps = [{"edit": "cap", "person_id": "lead", "pack_cap": f"{kg} kg"} for kg in (28, 26)]
    (told,) = variants({"name": "x", "patch": {"roster": roster}, "edits": caps})
    assert told.edits == ("lead: pack_cap 30 kg -> 28 kg", "lead: pack_cap 28 kg -> 26 kg")
    assert told.document["roster"][0]["pack_cap"] == "26 kg"


def test_a_person_is_exchanged_by_two_edits():
    """One stays at home and another comes from the list."""
    edits = [{"edit": "without", "person_id": "third"}, {"edit": "add", "person_id": "fourth"}]
    (told,) = variants({"name": "x", "edits": edits}, people=[FOURTH])
    assert told.edits == ("roster 3 -> 2", "roster 2 -> 3")
    assert told.document["roster"][3] == FOURTH
    assert told.document["without"] == ["third"]


def test_a_faulty_variant_keeps_its_faults_and_stops_no_other():
    """Faults of patch, edit and base part point to where each was written in the comparison."""
    told = variants(
        {"name": "patch", "patch": {"start_date": "soon", "route": {"legs": []}}},
        {"name": "edit", "edits": [{"edit": "without", "person_id": "nobody"}]},
        {"name": "list", "patch": {"roster": {"0": {"pack_cap": "3 kg"}}}},
        {"name": "good", "patch": {"title": "as it is"}},
    )
    assert [variant.document is None for variant in told] == [True, True, True, False]
    patch = {fault.pointer for fault in told[0].faults}
    assert "/variants/0/patch/start_date" in patch
    assert all(pointer.startswith(("/variants/0/", "/base")) for pointer in patch)
    assert [f.pointer for f in told[1].faults] == ["/variants/1/edits/0/person_id"]
    assert told[2].faults[0].pointer == "/variants/2/patch/roster"


def test_one_variant_does_not_change_the_next():
    """Edits work on a copy: the second variant starts from the base again."""
    edit = {"edit": "cap", "person_id": "lead", "pack_cap": "20 kg"}
    _, second = variants({"name": "a", "edits": [edit]}, {"name": "b"})
    assert second.document == BASE


@pytest.mark.parametrize(
    ("document", "pointer", "code"),
    [
        ({"base": BASE, "variants": []}, "/variants", "too_few"),
        ({"base": BASE, "variants": [{"name": "x"}] * 51}, "/variants", "too_many"),
        ({"base": BASE, "variants": [{"name": "x"}] * 2}, "/variants/1/name", "duplicate_id"),
        ({"base": BASE, "variants": [{"name": "base"}]}, "/variants/0/name", "duplicate_id"),
        ({"base": {**BASE, "start_date": "x"}, "variants": [{"name": "x"}]},
         "/base/start_date", "not_a_date"),
        ({"variants": [{"name": "x"}]}, "/base", "missing"),
    ],
)  # fmt: skip
def test_a_comparison_that_is_none_is_refused(document, pointer, code):
    """No variants, too many, names that are not their own, and a faulty base are faults."""
    with pytest.raises(RequestFaults) as caught:
        read_comparison(document, read_order)
    assert (pointer, code) in [(fault.pointer, fault.code) for fault in caught.value.faults]


def test_a_busy_service_is_no_fault_of_a_variant():
    """If a variant cannot be read now, the whole comparison is refused, to be sent again."""

    def busy_after_the_base(document):
        if document != BASE:
            raise ServiceProblem("too_busy")
        return read_order(document)

    later = {"name": "later", "patch": {"start_date": "2027-06-01"}}
    with pytest.raises(ServiceProblem, match="too_busy"):
        read_comparison({"base": BASE, "variants": [later]}, busy_after_the_base)
