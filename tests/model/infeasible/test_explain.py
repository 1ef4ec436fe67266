"""What is said where there is no plan: which caps lack how much, or which rule cannot hold."""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path

from service.translate.read.requests import read_plan_request
from solver.outcome import Infeasible, Limits
from solver.pipeline import plan
from solver.problem import Problem
from tests.pipeline.one_leg import one_leg

SMALLEST = Path(__file__).parents[3] / "examples" / "smallest-request.json"


def conflicts(problem: Problem) -> dict[str, str]:
    """What an infeasible outcome says, by rule."""
    outcome = plan(problem, Limits(wall_seconds=20.0, workers=1))
    assert isinstance(outcome, Infeasible)
    return {conflict.rule_id: conflict.message for conflict in outcome.conflicts}


def test_caps_too_small_are_told_with_what_is_missing() -> None:
    """6 kg for a pack of 5 kg lack 1.0 kg, and the day and leg are named."""
    said = conflicts(one_leg([3000, 3000], people=1, cap_g=5000))
    assert list(said) == ["pack_cap_held"]
    assert "Day 1, road to camp" in said["pack_cap_held"]
    assert (
        "m1, who goes alone here, is 1.0 kg too much for the pack cap of 5.0 kg"
        in said["pack_cap_held"]
    )


def test_whole_units_that_fit_nowhere_are_told_from_missing_kilograms() -> None:
    """Three pieces of 3 kg in two packs of 5 kg: the totals fit, the pieces do not."""
    said = conflicts(one_leg([3000, 3000, 3000], people=2, cap_g=5000))
    assert list(said) == ["pack_cap_held"]
    assert "whole units" in said["pack_cap_held"]


def test_a_rule_on_keeping_apart_is_named_where_it_is_the_reason() -> None:
    """One person cannot keep two stoves apart; without that rule there would be a plan."""
    alone = one_leg([500, 500], people=1, cap_g=5000)
    stoves = tuple(replace(item, apart_kind="stove") for item in alone.gear)
    assert list(conflicts(replace(alone, gear=stoves))) == ["kinds_kept_apart"]


def test_fuel_that_cannot_be_spread_is_named() -> None:
    """One person with a large pack and no sled cannot spread two containers, and is told so."""
    request = json.loads(SMALLEST.read_text(encoding="utf-8"))
    for leg in request["route"]["legs"]:
        del leg["crevasse_hazard"]
    request["roster"] = [{"person_id": "lead", "pack_cap": "60 kg", "pack_volume": "200 L"}]
    assert list(conflicts(read_plan_request(request).problem)) == ["fuel_spread"]


def test_a_unit_that_goes_into_no_pack_is_named() -> None:
    """A piece of 6 kg fits into two packs of 5 kg by its mass alone, but into neither whole."""
    said = conflicts(one_leg([6000, 1000], people=2, cap_g=5000))
    assert list(said) == ["pack_cap_held"]
    assert "piece-1 of 6.0 kg goes into no pack and onto no sled" in said["pack_cap_held"]
