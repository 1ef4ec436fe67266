"""Rescue kit in two packs: the checker with one, two and three pieces on a trip."""

from dataclasses import replace

import pytest

from solver.outcome import Limits, Solved
from solver.pipeline import plan
from solver.problem import Purpose
from tests.rules.apart_worlds import apart_cases
from tests.rules.worlds import Case, found, glacier, item, person, plan_of, world

RULE = "rescue_kit_in_two_packs"


def _teams(first: str, second: str, *, of_one: bool = False) -> Case:
    """Two rope teams with two halves each, of which the first team's are shared out as told."""
    people = tuple(person(f"m{n}", rope_team_id=f"r{(n + 1) // 2}") for n in range(1, 5))
    if of_one:
        people = people[1:]
    gear = tuple(
        replace(item("half", count=2, rope_team_id=team, purpose=Purpose.RESCUE_KIT), item_id=kit)
        for team, kit in (("r1", "first"), ("r2", "second"))
    )
    loads = {"m1": first, "m2": second, "m3": "second", "m4": "second"}
    loads = {who: its for who, its in loads.items() if its and who in {p.person_id for p in people}}
    problem = glacier(world(people=people, gear=gear), RULE)
    finds = ((RULE, 1),) * 2 if not of_one and not (first and second) else ()
    return Case("teams", problem, plan_of(problem, loads, loads), finds)


CASES = (
    *apart_cases(RULE, Purpose.RESCUE_KIT),
    replace(_teams("first", "first"), name="a half with each of a team"),
    replace(_teams("first*2", ""), name="both of a team in one pack"),
    replace(_teams("", "first*2", of_one=True), name="a team of one person"),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_no_pack_or_sled_has_all(case):
    """Of k >= 2 pieces of a trip or of a rope team on it, one pack or sled holds at most k - 1."""
    assert found(case.problem, case.plan) == case.finds


def test_the_model_shares_out_the_kit_of_each_rope_team():
    """Two halves of a team of two are with one each; one who walks alone has both."""
    for case in (_teams("first", "first"), _teams("", "first*2", of_one=True)):
        outcome = plan(case.problem, Limits(wall_seconds=5.0, workers=1))
        assert isinstance(outcome, Solved)
        packs = [
            stowed.count
            for trip in outcome.plan.trips
            for load in trip.loads
            for stowed in load.pack
            if stowed.unit_id == "first"
        ]
        assert packs == ([1] * 4 if len(case.problem.roster) == 4 else [2] * 2)
