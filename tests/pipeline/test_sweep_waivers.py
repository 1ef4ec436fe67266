"""Model and checker agree: a short form of `python -m tests.pipeline.sweep_waivers`."""

from collections import Counter
from dataclasses import replace
from pathlib import Path

import pytest

from solver.model.rules import BUILDERS, Builder
from solver.problem import Problem
from solver.rulebook import RULES, RuleKind
from tests.pipeline.sweep_record import Record
from tests.pipeline.sweep_waivers import Swept, changes, main, numbers, rule_worlds, sweep
from tests.pipeline.test_waivers import hauler
from tests.pipeline.tiny_worlds import tiny_world
from tests.rules.worlds import asked_alone, on_glacier

STRIDE = 213
"""One of so many worlds of the rules' tests is swept here."""


def bare(total_g: int) -> Problem:
    """The hauler's world with the first load as its only rule of glaciers; it has a plan."""
    return asked_alone(hauler(total_g), "first_load_within_plan")


@pytest.mark.parametrize(
    "problem",
    [bare(11_500), bare(20_000), on_glacier(tiny_world(1)), *rule_worlds()[::STRIDE]],
    ids=lambda _: "world",
)
def test_every_waiver_and_number_leaves_model_and_checker_in_agreement(problem: Problem) -> None:
    """Under each waiver and end of a number nothing is withheld or wrongly called infeasible."""
    swept = sweep(problem, "world")
    assert swept.disagreements == ()
    assert sum(swept.ends.values()) > 1


def test_the_sweep_takes_every_waiver_and_both_ends_of_each_number() -> None:
    """On a glacier each hard rule that is not firm is waived once, each number takes two values."""
    problem = hauler(20_000)
    names = [name for name, _ in changes(problem)]
    waivable = [r for r in RULES if r.kind is RuleKind.HARD and not r.firm]
    assert [n for n in names if n.startswith("waive")] == [f"waive {r.rule_id}" for r in waivable]
    for setting in (s for rule in RULES for s in rule.settings):
        ends = {setting.least, setting.most} - {setting.value}
        assert {f"{setting.name} = {end:g}" for end in ends} <= set(names)


def test_the_sweep_sees_a_check_that_asks_more_than_the_model(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Where the model forgets the volume of packs a plan is withheld, and the sweep tells it."""
    monkeypatch.setattr("solver.model.rules.BUILDERS", _without("pack_volume_held"))
    tight = bare(20_000)
    people = tuple(replace(p, pack_volume_ml=500) for p in tight.roster)
    swept = sweep(replace(tight, roster=people), "tight")
    assert any("pack_volume_held" in told or "withheld" in told for told in swept.disagreements)


def test_shares_of_a_sweep_take_every_world_once() -> None:
    """The three thirds of ten worlds are ten worlds, and a fourth third is refused."""
    taken = [n for share in ("1/3", "2/3", "3/3") for n in numbers(10, share)]
    assert sorted(taken) == list(range(10))
    with pytest.raises(ValueError, match="4/3"):
        numbers(10, "4/3")


def test_a_sweep_goes_on_after_the_worlds_that_are_on_record(tmp_path: Path) -> None:
    """A line that was cut off is swept again, all others are left as they stand."""
    record = Record(tmp_path / "sweep")
    record.add("tiny", 0, Swept(Counter(solved=2), ("tiny 0: unlike",)))
    with record.path.open("a") as file:
        file.write('{"family": "tiny", "num\n')
    assert record.done("tiny") == {0}
    assert record.done("rules") == set()
    assert record.summary() == (
        "tiny 0: unlike\n1 worlds, 2 combinations (2 solved): 1 disagreements",
        1,
    )
    assert main(["tiny", "--record", str(record.path), "--worlds", "1"]) == 1


def _without(rule_id: str) -> tuple[tuple[str, Builder], ...]:
    return tuple(entry for entry in BUILDERS if entry[0] != rule_id)
