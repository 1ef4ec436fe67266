"""Why each fuel container is taken along, against a check of the plan without it."""

from __future__ import annotations

import os
from collections import Counter
from dataclasses import replace

import pytest

from solver.checker import check, why_containers
from solver.checker.ledger.facts import read_facts
from solver.checker.ledger.replay import replay
from solver.checker.ledger.unit_ways import UnitWay, unit_ways
from solver.checker.queries.container_reasons import ContainerReason
from solver.outcome import Limits, Solved
from solver.pipeline import plan
from solver.plan import Plan, Stowed, TripLoads
from solver.problem import Container, CookGroup, Problem, Reserve, ReserveKind, read_timeline
from tests.pipeline.tiny_worlds import tiny_world
from tests.rules.worlds import MEAL, person, plan_of, world

WORLDS = int(os.environ.get("HAULWRIGHT_CONTAINERS", "30"))
LIMITS = Limits(wall_seconds=60.0, workers=1, seed=1)


def _fewer(stowed: tuple[Stowed, ...], unit_id: str) -> tuple[Stowed, ...]:
    one_less = (replace(s, count=s.count - (s.unit_id == unit_id)) for s in stowed)
    return tuple(stowed for stowed in one_less if stowed.count)


def _lighter(trip: TripLoads, unit_id: str) -> TripLoads:
    """The trip without one unit, out of the load that has most of them."""

    def has(stowed: tuple[Stowed, ...]) -> int:
        return sum(one.count for one in stowed if one.unit_id == unit_id)

    loads = list(trip.loads)
    at = max(range(len(loads)), key=lambda n: max(has(loads[n].pack), has(loads[n].sled)))
    load = loads[at]
    if has(load.pack) >= has(load.sled):
        loads[at] = replace(load, pack=_fewer(load.pack, unit_id))
    else:
        loads[at] = replace(load, sled=_fewer(load.sled, unit_id))
    return replace(trip, loads=tuple(loads))


def _without(whole: Plan, unit_id: str, way: UnitWay) -> Plan:
    """The plan without one unit, on its trips and at the start."""
    trips = tuple(
        _lighter(trip, unit_id) if number in way.trips else trip
        for number, trip in enumerate(whole.trips)
    )
    start = tuple(
        replace(entry, units=_fewer(entry.units, unit_id)) for entry in whole.stock if not entry.day
    )
    return replace(whole, trips=trips, stock=start)


def _disagreements(problem: Problem, whole: Plan) -> list[str]:
    """Containers whose reason the check of a plan without them does not find."""
    timeline = read_timeline(problem)
    replayed = replay(read_facts(problem, timeline), whole)
    told: dict[str, list[ContainerReason]] = {}
    for reason in why_containers(problem, whole, timeline):
        told.setdefault(reason.container.unit_id, []).append(reason)
    wrong = []
    for unit_id, reasons in told.items():
        ways = unit_ways(replayed, unit_id)
        if sum(reason.count for reason in reasons) != len(ways):
            wrong.append(f"{unit_id}: {len(ways)} units")
        broken = Counter(
            reason.without_one is None for reason in reasons for _ in range(reason.count)
        )
        for way in ways:
            findings = check(problem, _without(whole, unit_id, way)).findings
            found = {finding.rule_id for finding in findings}
            # What the plan says of the stock of later nights was left out with the unit.
            found.discard("units_conserved")
            broken[not found] -= 1
            rules = {r.without_one.rule_id for r in reasons if r.without_one is not None}
            if found and not found & rules:
                wrong.append(f"{unit_id}: {sorted(found)} and not {sorted(rules)}")
        if any(broken.values()):
            wrong.append(f"{unit_id}: needed and not needed differ by {dict(broken)}")
    return wrong


def test_what_is_said_to_break_does_break() -> None:
    """On seeded worlds each container is left out of the plan, and the checker finds the reason."""
    asked = 0
    for seed in range(WORLDS):
        problem = tiny_world(seed)
        outcome = plan(problem, LIMITS)
        if isinstance(outcome, Solved):
            assert _disagreements(problem, outcome.plan) == [], seed
            asked += len(why_containers(problem, outcome.plan, read_timeline(problem)))
    assert asked >= WORLDS // 3


LARGE = Container("large", "g1", content_ml=300, tare_g=100, volume_ml=100)
SMALL = Container("small", "g1", content_ml=100, tare_g=50, volume_ml=100)


def _held(fuel_ml: int) -> Problem:
    """Two people one night at c1, whose storm reserve there takes so much fuel for each."""
    storm = replace(MEAL, set_id="storm", fuel_ml=fuel_ml)
    return replace(
        world("strip-c1 c1-strip", people=(person("m1"), person("m2"))),
        cook_groups=(CookGroup("g1", (("c1", "meal"),), (replace(LARGE, count=1), SMALL)),),
        night_sets=(MEAL, storm),
        reserves=(Reserve("c1", "g1", ReserveKind.STORM, 1, "storm"),),
    )


@pytest.mark.parametrize(("fuel_ml", "would_do"), [(50, ("small",)), (51, ())])
def test_a_lighter_container_is_named_where_it_would_do(
    fuel_ml: int, would_do: tuple[str, ...]
) -> None:
    """A reserve of 100 mL fits the small one; of 102 mL nothing lighter of the list covers it."""
    problem = _held(fuel_ml)
    both = {"m1": "g1/meal*2 g1/storm*2 g1/large"}
    stock = {(0, "strip"): "g1/meal*2 g1/storm*2 g1/large"}
    whole = plan_of(problem, both, {"m1": "g1/storm*2 g1/large"}, stock=stock)
    assert check(problem, replace(whole, stock=())).findings == ()
    (reason,) = why_containers(problem, whole, read_timeline(problem))
    assert (reason.container.container_id, reason.count, reason.opened) == ("large", 1, None)
    assert reason.without_one is not None
    assert reason.without_one.rule_id == "reserves_held"
    assert reason.would_do == would_do
