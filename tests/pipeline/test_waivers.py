"""Hard rules stated as cautions: the search lets them go, the check tells them with the reason."""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path

import pytest

from service.translate.read.requests import read_plan_request
from service.translate.write.load_figures import peak_of
from solver.model.rules import BUILDERS
from solver.outcome import Limits, Solved
from solver.pipeline import plan
from solver.problem import Problem, Sled, read_timeline
from solver.progress import Watch
from solver.rulebook import rule
from tests.rules.worlds import asked_alone, item, on_glacier, person, world

EXAMPLES = Path(__file__).parents[2] / "examples"
REASON = "the leader has seen the place"
SOFT = [rule_id for rule_id, _ in BUILDERS if not rule(rule_id).firm]


def stated(problem: Problem, rule_id: str) -> Problem:
    """The problem with one hard rule stated as a caution."""
    rules = replace(problem.rules, waived=((rule_id, REASON),))
    return replace(problem, rules=rules)


@pytest.mark.parametrize("rule_id", SOFT)
@pytest.mark.parametrize(
    ("name", "last"), [("smallest-request", None), ("independent-three", "preferences")]
)
def test_any_hard_rule_that_is_not_firm_may_be_let_go(
    name: str, last: str | None, rule_id: str
) -> None:
    """Model and checker agree on a plan without it, and what breaks it comes with the reason.

    The smaller expedition is solved to its end, the larger one up to a stage. What comes after it
    takes four fifths of the time, and moves loads by the same rules.
    """
    request = json.loads((EXAMPLES / f"{name}.json").read_text(encoding="utf-8"))
    watch = Watch(20.0)
    watch.wish_to_stop = lambda: last in [stage for stage, _ in watch.stages]
    problem = stated(read_plan_request(request).problem, rule_id)
    outcome = plan(problem, Limits(wall_seconds=20.0, workers=1, gap=100), watch)
    assert isinstance(outcome, Solved)
    told = [remark for remark in outcome.remarks if remark.finding.rule_id == rule_id]
    assert all(remark.reason == REASON for remark in told)


def test_what_is_broken_is_told_with_the_reason() -> None:
    """Two tents in the only pack have a plan once the rule only warns, and are told twice."""
    kinds = tuple(item(name, apart_kind="tent") for name in ("one", "other"))
    problem = asked_alone(on_glacier(world(people=(person(),), gear=kinds)))
    outcome = plan(stated(problem, "kinds_kept_apart"), Limits(wall_seconds=20.0, workers=1))
    assert isinstance(outcome, Solved)
    told = [r for r in outcome.remarks if r.finding.rule_id == "kinds_kept_apart"]
    assert [(r.finding.amount, r.reason) for r in told] == [(1, REASON), (1, REASON)]


def hauler(total_g: int) -> Problem:
    """A hauler of 3 kg of own kit, 6 kg of shared and a sled of 2 kg, both caps at 10 kg."""
    return on_glacier(
        world(
            people=(person(pack_g=10_000, sled_g=10_000, total_g=total_g),),
            gear=(item("kit", mass_g=6_000), item("own", mass_g=3_000, owner_id="m1")),
            sleds=(Sled("s1", "m1", tare_g=2_000, mass_limit_g=90_000, volume_ml=90_000),),
            sled_leg_factors=(100, 100),
        )
    )


@pytest.mark.parametrize("total_g", [5_000, 11_000, 11_500, 30_000])
def test_a_waived_total_cap_counts_nowhere(total_g: int) -> None:
    """Whatever the total cap, a plan without it has the peak of pack and sled.

    The own kit of 3 kg is in the pack, the 6 kg on the sled of 2 kg: 80 % of 10 kg.

    Model and checker agree, the 95 % of the first day are asked of the other caps, and the
    service's figures name the pack or the sled.
    """
    problem = stated(asked_alone(hauler(total_g), "first_load_within_plan"), "total_cap_held")
    outcome = plan(problem, Limits(wall_seconds=20.0, workers=1))
    assert isinstance(outcome, Solved)
    assert outcome.peak.value == 8_000
    told = {r.finding.rule_id for r in outcome.remarks if r.reason}
    assert told == ({"total_cap_held"} if total_g < 11_000 else set())
    timeline = read_timeline(problem)
    peak = peak_of(problem, timeline, outcome.plan)
    assert peak is not None
    assert (peak.figures.fraction, peak.figures.binding in ("pack", "sled")) == (8_000, True)
