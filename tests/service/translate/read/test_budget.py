"""The work that a request makes is counted before it is done, and expeditions are far from it."""

import json
from dataclasses import replace
from pathlib import Path

import pytest

from service.errors import ServiceProblem
from service.jobs.desk_child import order_replan, read_order
from service.translate.read import budget
from service.translate.read.budget import (
    MOST_PACK_QUESTIONS,
    MOST_RESERVE_NIGHTS,
    require_budget,
    work_of,
)
from service.translate.read.comparisons import read_comparison
from service.translate.read.requests import read_plan_request
from tests.service.one_night_out import REQUEST

EXAMPLES = sorted((Path(__file__).parents[4] / "examples").glob("*.json"))


def test_one_night_out_is_counted():
    """Each person's trips with what is personal, and each reserve's nights, are counted."""
    read = read_plan_request(REQUEST)
    owners = [item.owner_id for item in read.problem.gear if item.owner_id is not None]
    by_hand = sum(len(trip.person_ids) for trip in read.timeline.trips)
    by_hand += sum(owners.count(p) for trip in read.timeline.trips for p in trip.person_ids)
    assert work_of(read).pack_questions == by_hand > 0
    nights = len(read.timeline.nights)
    assert work_of(read).reserve_nights == len(read.problem.reserves) * nights


@pytest.mark.parametrize("file", EXAMPLES, ids=lambda file: file.stem)
def test_our_examples_are_far_from_the_limits(file):
    """Every published example makes less than a tenth of the work that may be asked for."""
    read = read_plan_request(json.loads(file.read_text(encoding="utf-8")))
    assert work_of(require_budget(read)).pack_questions < MOST_PACK_QUESTIONS / 10
    assert work_of(read).reserve_nights < MOST_RESERVE_NIGHTS / 10


@pytest.mark.parametrize("limit", ["MOST_PACK_QUESTIONS", "MOST_RESERVE_NIGHTS"])
def test_a_request_over_a_limit_is_refused_with_its_count(monkeypatch, limit):
    """At its count a request is taken; one less and it is refused with the number."""
    read = read_plan_request(REQUEST)
    twice = replace(read, problem=replace(read.problem, reserves=read.problem.reserves * 2 or ()))
    work = work_of(twice)
    count = {
        "MOST_PACK_QUESTIONS": work.pack_questions,
        "MOST_RESERVE_NIGHTS": work.reserve_nights,
    }[limit]
    monkeypatch.setattr(budget, limit, count)
    assert require_budget(twice) is twice
    monkeypatch.setattr(budget, limit, count - 1)
    with pytest.raises(ServiceProblem, match="too_much_work") as refused:
        require_budget(twice)
    assert f"{count:,}" in refused.value.detail


def test_a_comparison_is_held_to_the_limit_of_a_request(monkeypatch):
    """A base over the limit is refused; a variant over it is a row that says so."""
    count = work_of(read_plan_request(REQUEST)).pack_questions
    solo = REQUEST["roster"][0]
    kit = [*solo["personal_kit"], solo["personal_kit"][0] | {"item_id": "mat"}]
    more = {"name": "more", "patch": {"roster": [solo | {"personal_kit": kit}]}}
    monkeypatch.setattr(budget, "MOST_PACK_QUESTIONS", count)
    base, same, over = read_comparison(
        {"base": REQUEST, "variants": [{"name": "same", "patch": {}}, more]}, read_order
    )
    assert (base.faults, same.faults) == ((), ())
    assert [(f.pointer, f.code) for f in over.faults] == [("/variants/1", "too_much_work")]
    monkeypatch.setattr(budget, "MOST_PACK_QUESTIONS", count - 1)
    with pytest.raises(ServiceProblem, match="too_much_work"):
        read_comparison({"base": REQUEST, "variants": [{"name": "same", "patch": {}}]}, read_order)


def test_a_re_plan_is_held_to_the_limit_of_a_request(monkeypatch):
    """The request that a counted state leaves is counted, too."""
    followed = {
        "request": REQUEST,
        "plan": {"trips": [], "stock": [], "flights": []},
        "of_plan": "p",
    }
    state = {"at": {"day": 1, "moment": "evening"}}
    read, document = order_replan(followed, state)
    assert document["state"] == state
    monkeypatch.setattr(budget, "MOST_PACK_QUESTIONS", work_of(read).pack_questions - 1)
    with pytest.raises(ServiceProblem, match="too_much_work"):
        order_replan(followed, state)
