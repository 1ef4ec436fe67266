"""Keepers: who has single pieces and bundles in a plan, by the checker alone."""

from dataclasses import replace

import pytest

from solver.checker.queries.keepers import keepers
from solver.plan import Elsewhere, ElsewhereReason, Keeper
from tests.checker.replaying import replay_of
from tests.rules.worlds import item, person, world

PEOPLE = (person("m1"), person("m2"), person("m3"))
GEAR = (item("rope", count=4), item("tarp"), item("own", owner_id="m1"))


def test_only_shared_single_pieces_have_a_keeper():
    """Four ropes are spread on purpose, own kit has its owner; the tarp changes to m2 once."""
    problem = world("strip-c1 c1-strip", people=PEOPLE, gear=GEAR)
    plan = replay_of(problem, {"m1": "tarp rope own"}, {"m2": "tarp", "m1": "rope own"})
    elsewhere = Elsewhere(2, 1, "c1", "strip", "m2", 1, ElsewhereReason.OTHER)
    assert keepers(plan) == (
        Keeper("tarp", "m1", False, from_day=1, to_day=2, trips=2, elsewhere=(elsewhere,)),
    )


def test_what_never_rides_has_no_keeper():
    """A plan that leaves the tarp at the start says nothing of it."""
    problem = world("strip-c1 c1-strip", people=PEOPLE, gear=GEAR)
    assert keepers(replay_of(problem, {"m1": "rope"}, {"m1": "rope"})) == ()


def test_a_plan_cannot_make_up_its_keepers():
    """What a plan says of its keepers plays no part: they are as the loads have them."""
    problem = world("strip-c1 c1-strip", people=PEOPLE, gear=GEAR)
    (kept,) = keepers(replay_of(problem, {"m3": "tarp"}, {"m3": "tarp"}))
    assert (kept.person_id, kept.trips, kept.elsewhere) == ("m3", 2, ())


@pytest.mark.parametrize(
    ("waived", "reason"),
    [((), ElsewhereReason.VOLUME), (("pack_volume_held",), ElsewhereReason.OTHER)],
)
def test_a_volume_that_is_waived_holds_nothing_back(waived, reason):
    """A tarp of 3 L fits no second time into a pack of 3 L, unless the leader lets that go."""
    people = (person("m1", pack_volume_ml=3_000), person("m2", pack_g=10_000), PEOPLE[2])
    gear = (item("tarp", volume_ml=3_000), item("own", owner_id="m1", volume_ml=3_000))
    problem = world("strip-c1 c1-c2 c2-c1", people=people, gear=gear)
    rules = replace(problem.rules, waived=tuple((rule_id, "seen") for rule_id in waived))
    loads = ({"m1": "tarp"}, {"m1": "tarp"}, {"m2": "tarp", "m1": "m1/own"})
    (kept,) = keepers(replay_of(replace(problem, rules=rules), *loads))
    assert [one.reason for one in kept.elsewhere] == [reason]
