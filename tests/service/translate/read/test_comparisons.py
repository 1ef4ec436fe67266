"""A comparison read into the requests of its variants."""

import json
from pathlib import Path

import pytest

from service.errors import RequestFaults, ServiceProblem
from service.jobs.desk_child import read_order
from service.translate.read.comparisons import read_comparison

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


def test_choices_of_people_are_variants_with_the_fewest_first():
    """One of the roster and one of the list make four; the variants that are named come before."""
    told = variants(
        {"name": "as it is", "patch": {}},
        people=[FOURTH],
        optional_people={"person_ids": ["third", "fourth"]},
    )
    assert [variant.name for variant in told] == [
        "as it is",
        "with none of them",
        "with third",
        "with fourth",
        "with all of them",
    ]
    assert [variant.edits for variant in told[1:]] == [
        ("roster 3 -> 2",),
        (),
        ("roster 3 -> 3",),
        ("roster 3 -> 4",),
    ]
    assert told[2].document == BASE
    assert told[3].document["without"] == ["third"]
    assert told[3].document["roster"][3] == FOURTH


def test_a_choice_that_makes_no_request_is_a_row_with_its_fault():
    """Its fault points to the person in the list of the comparison."""
    faulty = FOURTH | {"body_mass": "900 kg"}
    (alone,) = variants(people=[faulty], optional_people={"person_ids": ["fourth"], "least": 1})
    assert alone.document is None
    assert alone.faults[0].pointer.startswith("/people/0")


@pytest.mark.parametrize(
    ("asked", "pointer", "code"),
    [
        ({"person_ids": ["nobody"]}, "/person_ids/0", "unknown_id"),
        ({"person_ids": ["third", "third"]}, "/person_ids/1", "duplicate_id"),
        ({"person_ids": ["third"], "least": 2}, "/least", "too_large"),
        ({"person_ids": ["third"], "least": 1, "most": 0}, "/least", "too_large"),
        ({"person_ids": [f"p{n}" for n in range(6)]}, "", "too_many"),
    ],
)
def test_people_who_cannot_be_chosen_from_are_refused(asked, pointer, code):
    """Nothing of such a comparison is solved."""
    people = [{"person_id": f"p{n}", "pack_cap": "20 kg"} for n in range(6)]
    with pytest.raises(RequestFaults) as refused:
        variants(people=people, optional_people=asked)
    faults = {(fault.pointer, fault.code) for fault in refused.value.faults}
    assert (f"/optional_people{pointer}", code) in faults


def test_a_comparison_without_variants_and_without_choices_is_refused():
    """There would be nothing to compare the base with."""
    with pytest.raises(RequestFaults) as refused:
        variants()
    assert [fault.pointer for fault in refused.value.faults] == ["/variants"]


def test_names_of_choices_are_short_and_each_its_own():
    """A name that is taken has a number, and a list of forty people is cut."""
    told = variants(
        {"name": "with third", "patch": {}}, optional_people={"person_ids": ["third"], "least": 1}
    )
    assert [variant.name for variant in told] == ["with third", "with all of them"]
    people = [{"person_id": f"somebody-{n}", "pack_cap": "20 kg"} for n in range(40)]
    ids = [person["person_id"] for person in people]
    told = variants(people=people, optional_people={"person_ids": ids, "least": 39, "most": 39})
    names = [variant.name for variant in told]
    assert len({*names}) == 40
    assert max(map(len, names)) <= 120
    told = variants(
        {"name": "with none of them", "patch": {}},
        optional_people={"person_ids": ["third"], "most": 0},
    )
    assert [variant.name for variant in told] == ["with none of them", "with none of them (2)"]


def night_of(day: list | dict) -> str:
    """Where people sleep after a day of a calendar."""
    return (day if isinstance(day, list) else day["places"])[-1]


SEVEN = json.loads((EXAMPLES / "guided-seven.json").read_text(encoding="utf-8"))


def test_a_longer_calendar_buys_the_fuel_that_it_needs():
    """The base gives its bottles; a variant with four days more takes more of them."""
    days = SEVEN["calendar"]
    there = next(n for n, day in enumerate(days) if night_of(day) == "camp-1") + 1
    longer = [*days[:there], *([["camp-1"]] * 4), *days[there:]]
    edits = [{"edit": "calendar", "calendar": longer}]
    _, longer = read_comparison(
        {"base": SEVEN, "variants": [{"name": "late", "edits": edits}]}, read_order
    )
    assert longer.faults == ()
    assert longer.edits[-1] == "bottle 12 -> as many as needed"
    assert [c.count for c in longer.order.problem.cook_groups[0].containers] == [4, None]


def test_a_count_of_the_variant_itself_is_its_fault():
    """Who writes too few bottles into a variant hears of it, where they wrote it."""
    cans, bottles = SEVEN["fuel"]["containers"]
    patch = {"fuel": {"containers": [cans, bottles | {"count": 3}]}}
    _, few = read_comparison(
        {"base": SEVEN, "variants": [{"name": "few", "patch": patch}]}, read_order
    )
    assert [(f.pointer, f.code) for f in few.faults] == [
        ("/variants/0/patch/fuel/containers/1/count", "too_few_containers")
    ]
