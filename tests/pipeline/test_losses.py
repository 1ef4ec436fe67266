"""Plans of the examples after any one loss, reckoned from request and answer alone."""

from __future__ import annotations

import json
from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest

from service.translate.read.requests import ReadRequest, read_plan_request
from service.translate.write.outcomes import write_outcome
from solver.checker import check
from solver.outcome import NoPlanInTime, Solved
from solver.pipeline import plan
from solver.plan import Load, Plan, TripLoads
from tests.loss_script import Line, lines_of, main, short, worst
from tests.service.wire import wire

EXAMPLES = Path(__file__).parents[2] / "examples"
NAMES = [
    name
    for name in ("independent-three", "guided-six", "guided-seven", "guided-twelve")
    if (EXAMPLES / f"{name}.json").exists()
]
KINDS = {"stove", "shelter", "communicator", "food", "fuel"}


@cache
def _solved(name: str) -> tuple[ReadRequest, Solved]:
    request = json.loads((EXAMPLES / f"{name}.json").read_text(encoding="utf-8"))
    read = read_plan_request(request)
    outcome = plan(read.problem, replace(read.limits, wall_seconds=60.0, workers=1, seed=1))
    if isinstance(outcome, NoPlanInTime):
        pytest.skip(f"{name} has no plan within a minute on this machine")
    assert isinstance(outcome, Solved)
    return read, outcome


def _lines(name: str, changed: Plan | None = None) -> list[Line]:
    read, outcome = _solved(name)
    if changed is not None:
        outcome = replace(outcome, plan=changed)
    request = json.loads((EXAMPLES / f"{name}.json").read_text(encoding="utf-8"))
    return lines_of(request, wire(write_outcome(outcome, read)))


@pytest.mark.parametrize("name", NAMES)
def test_no_one_loss_leaves_an_example_short(name):
    """Whichever pack, sled or unguarded store of an example's plan is lost, enough is left."""
    lines = _lines(name)
    assert {line.kind for line in lines} >= KINDS
    assert [line for line in lines if short(line)] == []
    assert all(line.needed >= 0 for line in worst(lines))


def _all_on_one(plan: Plan, trip: TripLoads, person: int) -> Plan:
    """The plan with everything of one trip in one person's pack."""
    stowed = tuple(s for load in trip.loads for s in (*load.pack, *load.sled))
    loads: tuple[Load, ...] = tuple(
        replace(load, pack=stowed if index == person else (), sled=())
        for index, load in enumerate(trip.loads)
    )
    trips = tuple(replace(t, loads=loads) if t is trip else t for t in plan.trips)
    return replace(plan, trips=trips)


def test_checker_and_script_find_the_same_trips_short():
    """With all of a trip in one pack both say which kinds are short there, whichever the trip."""
    read, outcome = _solved("independent-three")
    kinds_short = 0
    for trip in outcome.plan.trips:
        spoilt = _all_on_one(outcome.plan, trip, 1)
        event = f"day {trip.day}, {trip.from_place} to {trip.to_place}"
        lines = _lines("independent-three", spoilt)
        script = {x.kind for x in lines if x.event == event and short(x)}
        told = check(read.problem, spoilt).findings
        checker = {
            finding.rule_id.removesuffix("_survives_loss")
            for finding in told
            if finding.rule_id.endswith("_survives_loss")
            and dict(finding.where)["day"] == trip.day
            and dict(finding.where)["to_place"] == trip.to_place
        }
        assert script == checker
        kinds_short += len(script)
    assert kinds_short > len(KINDS)


def test_the_script_says_what_falls_short_and_ends_with_1(tmp_path, capsys):
    """Run on a spoilt answer it names kind, trip and pack, and its status tells of it."""
    read, outcome = _solved("independent-three")
    # Of the trips on which one pack may not have everything, the first.
    trip, spoilt = next(
        (trip, spoilt)
        for trip in outcome.plan.trips
        if (spoilt := _all_on_one(outcome.plan, trip, 0))
        and any(
            finding.rule_id.endswith("_survives_loss")
            for finding in check(read.problem, spoilt).findings
        )
    )
    answer = tmp_path / "answer.json"
    answer.write_text(write_outcome(replace(outcome, plan=spoilt), read).model_dump_json())
    request = EXAMPLES / "independent-three.json"
    assert main([str(request), str(answer)]) == 1
    told = capsys.readouterr().out.splitlines()
    lost = f"without the pack of {trip.loads[0].person_id}"
    assert any("SHORT" in line and f"day {trip.day}, " in line and lost in line for line in told)
    answer.write_text(write_outcome(outcome, read).model_dump_json())
    assert main([str(request), str(answer)]) == 0
