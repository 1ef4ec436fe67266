"""How the least peak moves, or does not, when a world is changed in a way that is understood."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from solver.outcome import Infeasible, Limits, Solved
from solver.pipeline import plan
from solver.problem import Problem
from tests.pipeline.glacier_worlds import glacier_world
from tests.pipeline.same_world import (
    counted_singly,
    doubled,
    eaten_singly,
    renamed,
    reordered,
    scaled,
    with_caps,
    with_even_fuel,
    with_guests,
    with_one_more,
    with_useless_things,
    without_trash,
)
from tests.pipeline.tiny_worlds import tiny_world

STEADY = Limits(wall_seconds=60.0, workers=1, seed=1)
FIRST = 50_000
NO_PLAN = 1_000_000
"""Stands for the peak of a world without a plan: more than any."""


def peak(problem: Problem) -> int:
    """The proven least peak of a world [1/10,000]."""
    outcome = plan(problem, STEADY)
    if isinstance(outcome, Infeasible):
        return NO_PLAN
    assert isinstance(outcome, Solved)
    assert outcome.goals[0].proven
    return outcome.goals[0].value


def worlds(count: int = 20) -> list[Problem]:
    """So many tiny worlds that no other test looks at, and half as many on glaciers."""
    return [
        *(tiny_world(FIRST + number) for number in range(count)),
        *(glacier_world(FIRST + number) for number in range(count // 2)),
    ]


@pytest.mark.parametrize("change", [renamed, reordered, counted_singly, with_useless_things])
def test_what_does_not_matter_leaves_the_peak_as_it_is(
    change: Callable[[Problem], Problem],
) -> None:
    """Names, order, counting things singly and what nobody carries do not move the peak."""
    for number, problem in enumerate(worlds()):
        assert peak(change(problem)) == peak(problem), FIRST + number


def test_guests_of_a_kitchen_who_eat_the_same_leave_the_peak_as_it_is() -> None:
    """Bags that belong to one of a kitchen weigh what the others' do, and burn the same fuel."""
    for number in range(FIRST, FIRST + 20):
        problem = eaten_singly(tiny_world(number))
        assert peak(with_guests(problem)) == peak(problem), number


def test_guests_of_a_kitchen_on_a_glacier_never_lower_the_peak() -> None:
    """Rules that each menu must keep by itself ask no less than those of all together."""
    for number in range(FIRST, FIRST + 10):
        problem = eaten_singly(glacier_world(number))
        assert peak(with_guests(problem)) >= peak(problem), number


def test_seven_times_the_masses_under_seven_times_the_caps_is_the_same_peak() -> None:
    """Load fractions have no unit: scaling every mass, volume and cap leaves the peak."""
    for number, problem in enumerate(worlds()):
        even = with_even_fuel(problem)
        assert peak(scaled(even, 7)) == peak(even), FIRST + number


def test_a_cap_relaxed_never_raises_the_peak_and_one_tightened_never_lowers_it() -> None:
    """With a fifth more for one person the peak is no higher, with a fifth less no lower."""
    for number, problem in enumerate(worlds()):
        relaxed = with_caps(problem, lambda cap_g: cap_g * 6 // 5)
        tightened = with_caps(problem, lambda cap_g: cap_g * 4 // 5)
        assert peak(relaxed) <= peak(problem) <= peak(tightened), FIRST + number


def test_one_more_thing_to_carry_never_lowers_the_peak() -> None:
    """Another tent bag leaves the peak or raises it."""
    for number, problem in enumerate(worlds()):
        assert peak(with_one_more(problem)) >= peak(problem), FIRST + number


def test_two_parties_together_need_no_higher_peak_than_one() -> None:
    """A party and its twin can each keep to the plan of one, so together they do no worse."""
    for number, problem in enumerate(worlds(10)):
        alone = without_trash(problem)
        assert peak(doubled(alone)) <= peak(alone), FIRST + number
