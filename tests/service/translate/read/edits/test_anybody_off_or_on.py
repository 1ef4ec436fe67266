"""Anybody may stay at home and anybody may join, on all examples; read only, nothing is solved."""

import json
from itertools import combinations
from pathlib import Path

import pytest

from service.translate.read.comparisons import read_comparison
from service.translate.read.requests import read_plan_request

EXAMPLES = Path(__file__).parents[5] / "examples"
NAMES = ("smallest-request", "independent-three", "guided-six", "guided-seven", "guided-twelve")


def example(name: str) -> dict:
    """One of the example requests."""
    return json.loads((EXAMPLES / f"{name}.json").read_text(encoding="utf-8"))


@pytest.mark.parametrize("name", NAMES)
def test_any_one_or_two_may_stay_at_home(name):
    """Each person and each pair comes off each example without a fault, and nothing names them."""
    document = example(name)
    ids = [person["person_id"] for person in document["roster"]]
    for gone in (*combinations(ids, 1), *combinations(ids, 2)):
        problem = read_plan_request({**document, "without": list(gone)}).problem
        assert [p.person_id for p in problem.roster] == [one for one in ids if one not in gone]


@pytest.mark.parametrize("name", NAMES)
def test_a_second_of_anybody_may_join(name):
    """A person like any of the roster is added to each example, and their food and fuel with them.

    The bags come out even, and fuel is bought where the base's is too little.
    """
    document = example(name)
    people = [{**p, "person_id": f"new-{n}"} for n, p in enumerate(document["roster"])]
    variants = [
        {"name": one["person_id"], "edits": [{"edit": "add", "person_id": one["person_id"]}]}
        for one in people
    ]
    asked = {"base": document, "people": people, "variants": variants}
    base, *read = read_comparison(asked, read_plan_request)
    assert [(one.name, one.faults) for one in read] == [(one["person_id"], ()) for one in people]
    for one in read:
        assert len(one.order.problem.roster) == len(base.order.problem.roster) + 1
