"""Team kit in team: two teams' ropes and kits, each with its team and with the other."""

from dataclasses import replace

import pytest

from solver.problem import LegMode, Problem, Purpose, Sled
from tests.rules.worlds import Case, found, item, person, plan_of, world

RULE = "team_kit_in_team"
PEOPLE = (person("m1"), person("m2", rope_team_id="r2", sled_g=20_000), person("m3"))
KIT = (Purpose.ROPE, Purpose.RESCUE_KIT, Purpose.MEDICAL_KIT)


def _world(purpose: Purpose | None, *, of_team: bool = True, in_use: bool = False) -> Problem:
    """A thing of each of two rope teams that go together; m2, of r2, hauls a sled."""
    gear = tuple(
        item(
            team,
            rope_team_id=team if of_team else None,
            purpose=purpose,
            in_use_on=(LegMode.SLED,) if in_use else (),
        )
        for team in ("r1", "r2")
    )
    return world(
        people=PEOPLE,
        gear=gear,
        sleds=(Sled("s2", "m2", tare_g=400, mass_limit_g=90_000, volume_ml=90_000),),
        sled_leg_factors=(100, 100),
    )


def _case(name: str, problem: Problem, loads: dict[str, str], *over: int, solvable=True) -> Case:
    worn = {(team, 1): (0, 0) for team in ("r1", "r2")} if problem is USED else {}
    plan = plan_of(problem, loads, loads, weights=worn)
    return Case(name, problem, plan, tuple((RULE, n) for n in over) * 2, solvable)


ROPES, USED = _world(Purpose.ROPE), _world(Purpose.ROPE, in_use=True)
WEAK = replace(ROPES, roster=(PEOPLE[0], person("m2", rope_team_id="r2", pack_g=999), PEOPLE[2]))
WEAK = replace(WEAK, sleds=())

CASES = (
    _case("each team its own", ROPES, {"m1": "r1", "m2": "r2"}),
    _case("with another of the team", ROPES, {"m3": "r1", "m2": "| r2"}),
    _case("both with one", ROPES, {"m1": "r1 r2"}, 1),
    _case("on the other team's sled", ROPES, {"m2": "r2 | r1"}, 1),
    _case("both with one, in use", USED, {"m1": "r1 r2"}, 1),
    _case("each team its own, in use", USED, {"m1": "r1", "m2": "r2"}),
    _case("swapped", ROPES, {"m1": "r2", "m2": "r1"}, 1, 1),
    *(_case(f"{kit.value} of the other team", _world(kit), {"m1": "r1 r2"}, 1) for kit in KIT[1:]),
    _case("a shelter of the other team", _world(Purpose.SHELTER), {"m1": "r1 r2"}),
    _case("things of no purpose", _world(None), {"m1": "r1 r2"}),
    _case("nobody's ropes", _world(Purpose.ROPE, of_team=False), {"m1": "r1 r2"}),
    _case("the team cannot carry its own", WEAK, {"m1": "r1 r2"}, 1, solvable=False),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_a_rope_teams_kit_is_with_that_team(case):
    """A rope that weighs nothing in use is in the team's packs all the same, kits likewise."""
    assert found(case.problem, case.plan) == case.finds
