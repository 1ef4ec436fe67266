"""Where the hand-packing heuristic finds a plan: the short form of the benchmark."""

from __future__ import annotations

from dataclasses import replace

import pytest

from tests.benchmarks.hand_packing import EXAMPLES, Packed, example, packed, summary, worlds


@pytest.mark.parametrize("name", EXAMPLES)
def test_every_example_has_a_plan_by_the_heuristic(name: str) -> None:
    """The checker passes what the heuristic makes of each example."""
    found = packed(name, example(name))
    assert found.by_hand, found.reason


@pytest.mark.parametrize("glaciers", [False, True])
def test_each_small_world_that_has_a_plan_has_one_by_the_heuristic(glaciers: bool) -> None:
    """Of six seeds, those without a plan have none by the linear program, and tell the day."""
    found = [packed(*one) for one in worlds("small", 6, glaciers=glaciers)]
    assert all(one.by_hand for one in found if one.has_plan)
    assert all("Day " in one.reason for one in found if not one.by_hand)
    assert any(one.by_hand for one in found)


def test_a_share_counts_only_worlds_that_have_a_plan() -> None:
    """One of two possible worlds is 50 %, and the other is named with its reason."""
    good = Packed("a", by_hand=True)
    rest = [replace(good, name="b", by_hand=False, reason="Day 3."), Packed("c", False, False)]
    assert summary("small", [good, *rest]) == [
        "small: by hand 1 of 2 (50 %), no plan at all 1",
        "  b: Day 3.",
    ]
