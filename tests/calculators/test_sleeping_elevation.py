"""Sleeping heights against the named rules."""

from __future__ import annotations

from dataclasses import replace
from math import inf
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from solver.calculators.sleeping_elevation import (
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


@pytest.mark.parametrize(
    ("name", "threshold_m", "nights_to_rest", "gain_to_rest_m", "first_night_m"),
    [
        ("wms", 3000, 4, inf, 2800),
        ("cdc", 2750, inf, 1000, 2750),
        ("uiaa", 2500, inf, 1000, inf),
        ("cautious", 2500, 3, 1000, 2500),
    ],
)
def test_rules_have_the_numbers_of_their_sources(
    name, threshold_m, nights_to_rest, gain_to_rest_m, first_night_m
) -> None:
    """WMS from 3000 m, CDC from 2750 m, UIAA and the cautious from 2500 m, each with its rests."""
    rule = sleeping_rule(name=name)
    assert rule.threshold_m == threshold_m
    assert rule.rest_every_nights == nights_to_rest
    assert rule.rest_every_gain_m == gain_to_rest_m
    assert rule.first_night_at_most_m == first_night_m


def test_a_missing_rest_is_told_by_nights() -> None:
    """The fourth rising night in a row above 3000 m is told with the three that WMS allows."""
    (finding,) = findings([2800, 3100, 3400, 3700, 4000], "wms")
    assert (finding.night_index, finding.kind, finding.value, finding.allowed) == (
        4, "rest_nights", 4, 3,
    )  # fmt: skip
    assert finding.sentence.startswith("Night 5 is number 4 in a row that is higher")


def test_a_missing_rest_is_told_by_gain() -> None:
    """1400 m above the threshold without a rest are told against the 1000 m of CDC."""
    (finding,) = findings([2750, 3250, 3750, 4150], "cdc")
    assert (finding.night_index, finding.kind, finding.value, finding.allowed) == (
        3, "rest_gain", 1400, 1000,
    )  # fmt: skip
    assert finding.sentence.startswith("Night 4 is 1400 m above the last rest")


def test_a_high_first_night_is_told() -> None:
    """A first night at 2801 m is told by WMS for the night of index 0, one at 2800 m is not."""
    (finding,) = findings([2801], "wms")
    assert (finding.night_index, finding.kind, finding.value) == (0, "first_night", 2801)
    assert findings([2800], "wms") == ()


def test_nights_up_to_the_threshold_do_not_count_as_rising() -> None:
    """Rises that end at 3000 m exactly are no part of the four rising nights of WMS."""
    assert findings([2400, 2700, 3000, 3300, 3600, 3900], "wms") == ()


def test_a_long_step_is_told_with_its_metres() -> None:
    """3000 to 3600 m is a step of 600 m against 500, told for the second night with its rule."""
    (finding,) = findings([3000, 3600], "wms")[1:]
    assert (finding.night_index, finding.kind, finding.value, finding.allowed) == (
        1, "step", 600, 500,
    )  # fmt: skip
    assert finding.sentence.startswith("Night 2 is 600 m higher")
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
