"""Cook groups that eat from the kitchen of another: who cooks, and what contradicts itself."""

from __future__ import annotations

from dataclasses import replace

import pytest

from solver.problem import Problem
from tests.problem.small_world import apart, codes, day, only_fault, small_world, with_days


def guests(**changes: object) -> Problem:
    """The small world with the south a guest of the north, which has cans for both."""
    world = replace(small_world(), **changes)  # type: ignore[arg-type]
    north, south = world.cook_groups
    return replace(world, cook_groups=(north, replace(south, containers=(), kitchen_of="north")))


def cans(problem: Problem, count: int) -> Problem:
    """The problem with so many cans in the north."""
    north, south = problem.cook_groups
    kind = replace(north.containers[0], count=count)
    return replace(problem, cook_groups=(replace(north, containers=(kind,)), south))


def test_a_kitchen_feeds_its_own_group_and_its_guests() -> None:
    """Of two groups one has a kitchen, which is that of both."""
    problem = guests()
    north, south = problem.cook_groups
    assert problem.kitchens == (north,)
    assert problem.fed_from(north) == (north, south)
    assert problem.fed_from(south) == ()
    assert {problem.kitchen_id(group) for group in ("north", "south")} == {"north"}


def test_guests_who_sleep_where_the_kitchen_is_are_no_fault() -> None:
    """Neither their missing cans nor anything else is held against them."""
    assert codes(guests()) == []


def test_guests_who_sleep_elsewhere_are_a_fault() -> None:
    """The first night away from the kitchen is told with who is where."""
    calendar = with_days(
        day("road", "camp"),
        apart(("camp", "high"), ("camp",)),
        apart(("high", "camp", "road"), ("camp", "road")),
    ).calendar
    gear = tuple(i for i in small_world().gear if i.owner_id or i.rope_team_id)
    fault = only_fault(guests(calendar=calendar, gear=gear))
    assert (fault.where, fault.code) == (("calendar", "days", 1), "kitchen_elsewhere")
    assert "cy, di with a menu of their own" in fault.detail
    assert "sleep at camp and the kitchen is at high" in fault.detail


@pytest.mark.parametrize(
    ("kitchen", "containers", "code"),
    [("west", 0, "nobody_cooks"), ("north", 1, "containers_of_guest")],
)
def test_a_guest_needs_a_kitchen_and_has_no_cans(kitchen: str, containers: int, code: str) -> None:
    """A kitchen that no group has, and cans of a guest's own, are faults."""
    problem = guests()
    north, south = problem.cook_groups
    own = small_world().cook_groups[1].containers[:containers]
    south = replace(south, kitchen_of=kitchen, containers=own)
    assert code in codes(replace(problem, cook_groups=(north, south)))


def test_a_kitchen_needs_fuel_for_its_guests_too() -> None:
    """800 mL a night for three nights and 800 mL in reserve: four cans of a litre, not three."""
    assert codes(cans(guests(), 4)) == []
    fault = only_fault(cans(guests(), 3))
    assert fault.code == "too_few_containers"
    assert "burns 2400 mL" in fault.detail
    assert "needs 4 of can" in fault.detail


def test_a_reserve_of_guests_is_in_the_cans_of_the_kitchen() -> None:
    """With 800 mL more in reserve for the guests a fifth can is needed."""
    world = small_world()
    reserves = (*world.reserves, replace(world.reserves[0], cook_group_id="south"))
    problem = guests(reserves=reserves)
    assert codes(cans(problem, 5)) == []
    assert codes(cans(problem, 4)) == ["too_few_containers"]
