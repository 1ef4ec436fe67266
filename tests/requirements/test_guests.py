"""What a kitchen burns, holds and packs for those who eat a menu of their own from it."""

from __future__ import annotations

from dataclasses import replace

from solver.problem import CookGroup, Item, Need, NeedKind, Problem, Purpose, read_timeline
from solver.requirements.cache_stock import cache_stock_ml
from solver.requirements.consumption import burn_schedule, night_meals, sacks, trash_apart
from solver.requirements.provisions import supplies
from solver.requirements.requirements import requirements
from tests.problem.small_world import small_world
from tests.requirements.snow_world import snow_world


def one_kitchen(problem: Problem) -> Problem:
    """The small world with the south a guest of the north."""
    north, south = problem.cook_groups
    guest = replace(south, containers=(), kitchen_of="north")
    return replace(problem, cook_groups=(north, guest))


WORLD = one_kitchen(small_world())
TIMELINE = read_timeline(WORLD)
MEALS = night_meals(WORLD, TIMELINE)


def test_a_kitchen_burns_for_its_guests_and_they_burn_nothing() -> None:
    """800 mL a night from cans of a litre: one is opened on each of three nights, 600 mL stay."""
    north, south = WORLD.cook_groups
    burn = burn_schedule(WORLD, north, MEALS)
    assert [(o.day, o.count) for o in burn.openings] == [(1, 1), (2, 1), (3, 1)]
    assert burn.open_spells[-1].left_ml == 600
    guests = burn_schedule(WORLD, south, MEALS)
    assert (guests.openings, guests.open_spells, guests.shortfall_ml) == ((), (), 0)


def test_what_each_menu_takes_is_told_by_itself() -> None:
    """Each group's meal has its own people, bags and fuel."""
    assert {(m.cook_group_id, m.people, m.bags, m.fuel_ml) for m in MEALS} == {
        ("north", 2, 2, 400),
        ("south", 2, 2, 400),
    }


def test_reserves_of_one_kitchen_share_its_cans() -> None:
    """400 mL in reserve for each of two menus are one can of a litre beside what is burnt."""
    reserve = replace(small_world().reserves[0], nights=1)
    both = (reserve, replace(reserve, cook_group_id="south"))
    north, south = WORLD.cook_groups
    any_number = replace(north, containers=(replace(north.containers[0], count=None),))
    problem = replace(WORLD, reserves=both, cook_groups=(any_number, south))
    ((_, count),) = supplies(problem, TIMELINE).containers
    assert count == 3 + 1


def test_a_kitchen_packs_the_trash_of_all_its_menus_together() -> None:
    """Where somebody of another kitchen reacts, guests' trash is in the kitchen's sacks."""
    problem = small_world()
    first, *rest = problem.roster
    third = replace(rest[-1], cook_group_id="west", rope_team_id="south")
    careful = replace(problem, roster=(replace(first, reacts_to=("nuts",)), *rest[:-1], third))
    west = replace(problem.cook_groups[0], cook_group_id="west", containers=())
    sets = (*problem.night_sets, replace(problem.night_sets[0], cook_group_id="west"))
    guests = one_kitchen(careful)
    assert not trash_apart(guests)
    both = replace(guests, cook_groups=(*guests.cook_groups, west), night_sets=sets)
    assert trash_apart(both)
    names = {s.unit_id for s in sacks(both, TIMELINE, night_meals(both, TIMELINE))}
    assert {n for n in names if n.startswith("trash/camp")} == {
        "trash/camp/north/1-1",
        "trash/camp/west/1-1",
    }


def _snow(*, guest: bool) -> Problem:
    """Two people in the snow, the second with the same sets as a guest or not."""
    problem = snow_world()
    stove = Item("stove", 500, 1_000, Need(NeedKind.EVERY_NIGHT), purpose=Purpose.STOVE)
    problem = replace(problem, gear=(*problem.gear, stove))
    if not guest:
        return problem
    (group,) = problem.cook_groups
    first, second = problem.roster
    theirs = CookGroup("alone", group.set_at, kitchen_of=group.cook_group_id)
    return replace(
        problem,
        roster=(first, replace(second, cook_group_id="alone")),
        cook_groups=(group, theirs),
        night_sets=(
            *problem.night_sets,
            *(replace(s, cook_group_id="alone") for s in problem.night_sets),
        ),
        reserves=(
            *problem.reserves,
            *(replace(r, cook_group_id="alone") for r in problem.reserves),
        ),
    )


def test_melting_and_containers_count_all_who_eat_from_a_kitchen() -> None:
    """One kitchen for two menus melts as long and needs as many containers as for one."""

    def told(problem: Problem) -> dict[tuple[str, object], float | str]:
        wanted = {"melting_hours", "fuel_containers", "fuel_containers_taken"}
        return {
            (f.figure_id, f.about): f.value
            for f in requirements(problem).figures
            if f.figure_id in wanted
        }

    one, two = told(_snow(guest=False)), told(_snow(guest=True))
    assert {figure_id for figure_id, _ in one} == {
        "melting_hours",
        "fuel_containers",
        "fuel_containers_taken",
    }
    assert one == two


def test_fuel_in_a_cache_is_in_the_containers_of_the_kitchen() -> None:
    """What passes a cache takes the same room whether one eats a menu of their own or not."""
    one, two = _snow(guest=False), _snow(guest=True)
    assert cache_stock_ml(one, read_timeline(one)) == cache_stock_ml(two, read_timeline(two))
