"""A hard rule stated as a caution warns in plans and in checks, and forbids neither."""

import copy
import json

import pytest

from service.jobs.child import solve_document
from service.jobs.child_process import SILENT, JobLimits
from service.jobs.desk_child import judge_plan
from tests.service.one_night_out import REQUEST
from tests.service.wire import wire

REASON = "The bag was squeezed in before."
LIMITS = JobLimits(wall_seconds=20, memory_bytes=4_000_000_000)


def asked(*, stated: bool) -> dict:
    """One night out with a pack too small for what its owner must carry in it."""
    document = copy.deepcopy(REQUEST)
    document["roster"][0]["pack_volume"] = "8 L"
    document["roster"][0]["personal_kit"][0]["needed"] = "every_trip"
    if stated:
        document["rules"] = {"waivers": [{"rule_id": "pack_volume_held", "reason": REASON}]}
    return document


def solved(document: dict) -> dict:
    """The outcome of a request."""
    return json.loads(solve_document(json.dumps(document).encode(), LIMITS, SILENT))


@pytest.fixture(scope="module")
def warned() -> dict:
    """The outcome where the rule only warns."""
    return solved(asked(stated=True))


def test_the_rule_as_it_stands_forbids_the_plan():
    """Without the leader's word there is no plan, and the rule is named."""
    outcome = solved(asked(stated=False))
    assert outcome["outcome"] == "infeasible"
    assert "pack_volume_held" in [conflict["rule_id"] for conflict in outcome["conflicts"]]


def test_the_plan_carries_the_caution_with_the_leaders_reason(warned):
    """What is in a pack of 8 L beyond that and 10 % lashed outside is told for each trip."""
    assert warned["outcome"] == "solved"
    assert warned["check"]["passed"]
    told = [r for r in warned["check"]["remarks"] if r["rule_id"] == "pack_volume_held"]
    packs = [load["pack_l"] for trip in warned["plan"]["trips"] for load in trip["loads"]]
    assert min(packs) >= 10
    assert [(r["kind"], r["amount"], r["unit"], r["reason"]) for r in told] == [
        ("advisory", round(1000 * pack_l) - 8800, "mL", REASON) for pack_l in packs
    ]


def test_the_answer_says_that_the_rule_only_warns(warned):
    """The leader's word stands among the assumptions, at its place in the request."""
    told = {a["pointer"]: a for a in warned["assumptions"]}["/rules/waivers/0/rule_id"]
    assert (told["value"], told["source_status"]) == (REASON, "given in the request")


def test_a_check_of_the_plan_makes_the_same_remarks(warned):
    """Sent back to be checked, the plan passes with the remarks and the count of its answer."""
    verdict = wire(judge_plan({"request": asked(stated=True), "plan": warned["plan"]}))
    assert verdict["check"] == warned["check"]


def test_a_check_against_the_rule_as_it_stands_finds_it_broken(warned):
    """The same plan against the request without the leader's word breaks the rule."""
    verdict = wire(judge_plan({"request": asked(stated=False), "plan": warned["plan"]}))
    assert not verdict["check"]["passed"]
    assert {f["rule_id"] for f in verdict["check"]["findings"]} == {"pack_volume_held"}
