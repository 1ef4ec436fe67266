"""The job of a child process for what is stored: a plan request is solved, a plan is stressed."""

import json
import time
from typing import Any

from api_schema.edited_plan import EditedPlan
from api_schema.stress_answer import GroupOddsAnswer, StressProgressAnswer
from api_schema.stress_request import OddsRequest, StressTestRequest
from service.jobs.child import solve_document
from service.jobs.child_process import JobLimits, Talk
from service.jobs.two_ends import from_both_ends
from service.translate.read.plan_checks import read_plan_check
from service.translate.read.requests import ReadRequest
from service.translate.read.stress import slow_legs, storm_chances
from service.translate.write.stress import write_odds, write_stress
from solver.outlook.policies import odds_of, policy_of, what_reserves_buy
from solver.problem import ReserveKind
from solver.stress import BlowKind, Stress, stress_test

STRESS_TEST = "stress_test"
"""The field of a stored document that asks for a stress test of its `plan`."""

_USED_SHARE = 0.75
"""How much of the time the test may plan with: a search ends a little late now and then [1]."""


def do_stored_work(document: bytes, limits: JobLimits, talk: Talk) -> bytes:
    """The outcome document of a stored one, within the limits."""
    asked = json.loads(document)
    return (
        _stress(asked, limits, talk)
        if STRESS_TEST in asked
        else (solve_document(document, limits, talk))
    )


def _stress(document: dict[str, Any], limits: JobLimits, talk: Talk) -> bytes:
    asked = StressTestRequest.model_validate(document[STRESS_TEST])
    fields = EditedPlan.model_fields
    stored = {name: part for name, part in document["plan"].items() if name in fields}
    read, plan = read_plan_check({"request": document["request"], "plan": stored})

    def tell(settled: int, states: int) -> None:
        told = StressProgressAnswer(settled=settled, states=states)
        talk.tell(told.model_dump_json().encode())

    report = stress_test(
        read.problem,
        plan,
        Stress(
            kinds=frozenset(BlowKind(kind) for kind in asked.kinds),
            storm_nights=tuple(sorted(set(asked.storm_nights))),
            may_use=frozenset(ReserveKind(kind) for kind in asked.may_use),
            wall_seconds=limits.wall_seconds * _USED_SHARE,
            now=time.monotonic,
            tell=tell,
            should_stop=talk.should_finish,
            judged=from_both_ends,
        ),
    )
    found = None if asked.odds is None else _odds(read, asked.odds)
    return write_stress(report, read, found).model_dump_json().encode()


def _odds(read: ReadRequest, asked: OddsRequest) -> list[GroupOddsAnswer]:
    """The odds of each cook group under the chances that the caller gives."""
    storms = storm_chances(asked)
    losses = {one.place: one.chance for one in asked.lost}
    spoilt = {one.place: one.chance for one in asked.spoilt}
    slow = slow_legs(asked, read.problem.route)
    written: list[GroupOddsAnswer] = []
    for group in read.problem.cook_groups:
        if not read.problem.members(group.cook_group_id):
            continue
        drawn = {"scenarios": asked.scenarios, "seed": asked.seed}
        policy = policy_of(read.problem, group, losses, spoilt)
        found = odds_of(read.problem, policy, storms, slow=slow, **drawn)
        worth = what_reserves_buy(read.problem, policy, storms, slow=slow, **drawn)
        written.append(write_odds(group.cook_group_id, found, worth))
    return written
