"""A stored re-plan read for another check: what was counted counts, and a wrong load is found."""

import copy
from typing import Any

import pytest

from service.errors import ServiceProblem
from service.translate.read.recheck import read_recheck
from service.translate.read.replans import with_state
from service.translate.read.requests import read_plan_request
from service.translate.write.outcomes import write_outcome
from solver.checker import check
from solver.rest.left import as_planned
from tests.service.one_night_out import REQUEST, SOLVED
from tests.service.wire import wire

EVENING = {"at": {"day": 1, "moment": "evening"}}


@pytest.fixture
def plan() -> dict[str, Any]:
    """The plan of one night out, as it is stored."""
    return wire(write_outcome(SOLVED, read_plan_request(copy.deepcopy(REQUEST))))["plan"]


def stored(plan: dict[str, Any], state: dict[str, Any]) -> dict[str, Any]:
    """The document of a re-plan of that plan."""
    return with_state(copy.deepcopy(REQUEST), plan, "plan_" + "0" * 26, state)


def test_a_re_plan_that_kept_the_plan_passes_again(plan):
    """The trips that were made and those to come are one ledger, from where everything stands."""
    outcome = {"plan": plan, "rest": {"unchanged": True, "let_go": []}}
    read, again = read_recheck(stored(plan, EVENING), outcome)
    assert read.problem.history.standing
    assert check(read.problem, again, read.timeline).findings == ()


def test_a_load_that_is_wrong_after_the_moment_is_found(plan):
    """What is left behind on the day to come is a finding; the check could fail."""
    spoilt = copy.deepcopy(plan)
    carried = spoilt["trips"][1]["loads"][0]
    (carried["pack"] or carried["sled"]).pop(0)
    outcome = {"plan": spoilt, "rest": {"unchanged": True, "let_go": []}}
    read, again = read_recheck(stored(plan, EVENING), outcome)
    assert check(read.problem, again, read.timeline).findings != ()


def test_what_was_planned_anew_has_the_problem_of_the_planning(plan):
    """With nothing let go the problem is the one of the rest, with sets for each night."""
    outcome = {"plan": plan, "rest": {"unchanged": False, "let_go": []}}
    read, _ = read_recheck(stored(plan, EVENING), outcome)
    kept, _ = read_recheck(stored(plan, EVENING), outcome | {"rest": {"unchanged": True}})
    assert read.problem == as_planned(kept.problem, [])


def test_a_plan_for_an_evacuation_is_not_checked_again(plan):
    """Its two parties were judged by themselves, which the answer says."""
    state = EVENING | {"evacuation": {"person_id": "solo", "how": "walks"}}
    with pytest.raises(ServiceProblem) as caught:
        read_recheck(stored(plan, state), {"plan": plan, "rest": {}})
    assert caught.value.code == "no_plan_in_outcome"
