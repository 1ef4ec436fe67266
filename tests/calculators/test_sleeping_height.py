"""Sleeping heights against the named rules."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from solver.calculators.sleeping_height import (
    RULES,
    Finding,
    Night,
    mean_gain_m_per_night,
    nights_for_step,
    sleeping_findings,
    sleeping_rule,
)
from tests.calculators.published_values import misses, rows


def nights(heights: Any) -> list[Night]:
    """Nights at these heights, without carries."""
    return [Night(sleeping_m=height) for height in heights]


def findings(heights: list[float], rule: str) -> tuple[Finding, ...]:
    """Findings of a named rule on nights without carries."""
    return sleeping_findings(nights=nights(heights), rule=RULES[rule])


@pytest.mark.parametrize("row", rows("sleeping_rule"), ids=str)
def test_rules_have_their_largest_steps(row: dict[str, str]) -> None:
    """Each named rule allows the step that its source names."""
    assert not misses(lambda **given: sleeping_rule(**given).largest_step_m, row)


@pytest.mark.parametrize("row", rows("sleeping_findings"), ids=str)
def test_sequences_have_their_findings(row: dict[str, str]) -> None:
    """The published sequences have as many findings as the rules' words give by hand."""
    assert not misses(lambda nights, rule: len(findings(nights, rule)), row)


def test_a_long_step_is_told_with_its_metres() -> None:
    """3000 to 3600 m is a step of 600 m against 500, told for the second night with its rule."""
    (finding,) = findings([3000, 3600], "wms")[1:]
    assert (finding.night_index, finding.kind, finding.value, finding.allowed) == (
        1, "step", 600, 500,
    )  # fmt: skip
    assert "600 m higher" in finding.sentence
    assert "WMS" in finding.sentence
    assert not finding.softened


def test_a_carry_that_sleeps_low_is_no_finding() -> None:
    """A carry to 4200 m that sleeps at 3300 m again breaks no rule."""
    plan = [Night(2800), Night(3300), Night(3300, highest_m=4200)]
    assert sleeping_findings(nights=plan, rule=RULES["wms"]) == ()


@pytest.mark.parametrize(
    ("stay", "softened"),
    [
        ([Night(2950), Night(2950, highest_m=3450)], True),
        ([Night(2950), Night(2950, highest_m=3400)], True),
        ([Night(2950), Night(2950, highest_m=3399)], False),
        ([Night(2950), Night(2950)], False),
        ([Night(2500), Night(2950, highest_m=3450)], False),
    ],
)
def test_a_carry_and_two_nights_soften_a_long_step(stay: list[Night], softened: bool) -> None:
    """A step of 600 m is softened by two nights below and a carry to within 150 m of its top."""
    found = sleeping_findings(nights=[*stay, Night(3550)], rule=RULES["uiaa"])
    (step,) = [finding for finding in found if finding.kind == "step"]
    assert step.softened is softened


def test_each_number_of_a_rule_may_be_replaced() -> None:
    """With 700 m allowed the step of 600 m passes, and with 400 m one of 450 m does not."""
    loose = replace(RULES["uiaa"], largest_step_m=700)
    strict = replace(RULES["uiaa"], largest_step_m=400)
    assert sleeping_findings(nights=nights([2500, 3100]), rule=loose) == ()
    kinds = [f.kind for f in sleeping_findings(nights=nights([2500, 2950]), rule=strict)]
    assert kinds == ["step"]


def test_going_down_is_never_a_finding() -> None:
    """A descent of any speed breaks no rule."""
    assert findings([2400, 1500, 1000], "cautious") == ()


@given(heights=st.lists(st.integers(2000, 6000), max_size=12))
def test_the_cautious_rule_is_never_milder(heights: list[int]) -> None:
    """A night that any other rule would not have, by step or by first night, is told as well."""
    told = {(f.night_index, f.kind) for f in findings(heights, "cautious")}
    for name in ("wms", "cdc", "uiaa"):
        steps = {
            (f.night_index, f.kind)
            for f in findings(heights, name)
            if f.kind in {"step", "first_night"}
        }
        assert steps <= told


@given(heights=st.lists(st.integers(2000, 6000), min_size=1, max_size=12))
def test_a_plan_that_never_rises_has_only_first_night_findings(heights: list[int]) -> None:
    """Nights in falling order have no finding but for the first."""
    falling = sorted(heights, reverse=True)
    for name in RULES:
        assert {f.kind for f in findings(falling, name)} <= {"first_night"}


@pytest.mark.parametrize("row", rows("mean_gain_m_per_night"), ids=str)
def test_mean_gain_meets_the_textbook(row: dict[str, str]) -> None:
    """The textbook's three days from 2133 to 3048 m are 305 m a day (independent)."""
    assert not misses(
        lambda threshold_m, **given: mean_gain_m_per_night(
            nights=nights(given["nights"]), threshold_m=threshold_m
        ),
        row,
    )


@pytest.mark.parametrize("row", rows("nights_for_step"), ids=str)
def test_nights_for_a_step_meet_the_textbook(row: dict[str, str]) -> None:
    """Camps 3000 ft apart take three days and camps 2000 ft apart two (independent)."""
    assert not misses(nights_for_step, row)


@pytest.mark.parametrize(
    ("function", "arguments", "told"),
    [
        (sleeping_rule, {"name": "army"}, "cautious"),
        (sleeping_findings, {"nights": nights([14_000]), "rule": RULES["wms"]}, "sleeping_m"),
        (mean_gain_m_per_night, {"nights": nights([-401]), "threshold_m": 0}, "sleeping_m"),
        (mean_gain_m_per_night, {"nights": [], "threshold_m": 9001}, "threshold_m"),
        (nights_for_step, {"step_m": -1}, "step_m"),
        (nights_for_step, {"step_m": 500, "mean_m_per_night": 0}, "mean_m_per_night"),
    ],
)
def test_out_of_range_is_refused(function, arguments, told) -> None:
    """Unknown rules and heights in feet are refused by name."""
    with pytest.raises(ValueError, match=told):
        function(**arguments)
