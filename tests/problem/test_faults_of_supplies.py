"""Faults of food, fuel, reserves and what is left of them."""

import random
from dataclasses import replace
from itertools import product

import pytest

from solver.problem import (
    Calendar,
    Container,
    CookGroup,
    NightSet,
    Problem,
    Reserve,
    ReserveKind,
    Waste,
)
from solver.problem.fault_checks.cover import Effort, can_cover
from solver.problem.faults import find_faults
from tests.problem.small_world import apart, codes, day, only_fault, small_world

STORM, DESCENT, BASE_WAIT = ReserveKind.STORM, ReserveKind.DESCENT, ReserveKind.BASE_WAIT


def with_set(**changes: object) -> Problem:
    """The small world with the north group's night set changed."""
    world = small_world()
    first, second = world.night_sets
    return replace(world, night_sets=(replace(first, **changes), second))  # type: ignore[arg-type]


def with_group(**changes: object) -> Problem:
    """The small world with the north group changed."""
    world = small_world()
    first, second = world.cook_groups
    return replace(world, cook_groups=(replace(first, **changes), second))  # type: ignore[arg-type]


def with_cans(count: int | None, *, content_ml: int = 1_000) -> Problem:
    """The small world with other cans for the north group."""
    return with_group(containers=(Container("can", "north", content_ml, 150, 1_100, count),))


def with_reserves(*reserves: Reserve) -> Problem:
    """The small world with other reserves."""
    return replace(small_world(), reserves=reserves)


@pytest.mark.parametrize(
    ("changes", "field", "code"),
    [
        ({"gross_g": 0, "packaging_g": 0, "lunch_g": 0}, "gross_g", "too_small"),
        ({"packaging_g": -1}, "packaging_g", "too_small"),
        ({"lunch_g": -1}, "lunch_g", "too_small"),
        ({"volume_ml": -1}, "volume_ml", "too_small"),
        ({"fuel_ml": -1}, "fuel_ml", "too_small"),
        ({"sets_per_bag": 0}, "sets_per_bag", "too_small"),
        ({"bag_count": -1}, "bag_count", "too_small"),
        ({"packaging_g": 601, "lunch_g": 300}, "gross_g", "parts_exceed_whole"),
    ],
)
def test_night_set_faults(changes: dict[str, int], field: str, code: str) -> None:
    """Each number of a night set that cannot be is told at its field."""
    fault = only_fault(with_set(**changes))
    assert (fault.where, fault.code) == (("night_sets", 0, field), code)


def test_night_set_that_is_all_packaging_and_lunch() -> None:
    """Packaging and lunch may be the whole set."""
    assert find_faults(with_set(packaging_g=600, lunch_g=300)) == ()


def test_bag_that_does_not_come_out_even() -> None:
    """Two people cannot open one bag of three sets."""
    fault = only_fault(with_set(sets_per_bag=3))
    assert (fault.where, fault.code) == (("cook_groups", 0, "set_at"), "bags_not_whole")


def test_place_without_a_night_set() -> None:
    """A group that sleeps where it has no night set has nothing to eat."""
    fault = only_fault(with_group(set_at=(("camp", "low"),)))
    assert fault.code == "no_night_set"
    assert "high" in fault.detail


def test_unknown_set_and_place_in_use() -> None:
    """Where a set is used, both must exist."""
    world = with_group(set_at=(("camp", "low"), ("high", "fancy"), ("top", "low")))
    assert codes(world) == ["unknown_id", "unknown_id"]


def test_cook_group_without_people() -> None:
    """A kitchen for nobody is a mistake."""
    world = small_world()
    fault = only_fault(replace(world, cook_groups=(*world.cook_groups, CookGroup("west", ()))))
    assert (fault.where, fault.code) == (("cook_groups", 2), "empty")


def test_cook_group_that_sleeps_apart() -> None:
    """People fed from one kitchen sleep in one place."""
    world = small_world()
    people = tuple(replace(person, cook_group_id="north") for person in world.roster)
    days = (
        day("road", "camp"),
        apart(("camp", "high"), ("camp",)),
        apart(("high", "camp", "road"), ("camp", "road")),
    )
    world = replace(
        world, roster=people, cook_groups=world.cook_groups[:1], night_sets=world.night_sets[:1]
    )
    fault = only_fault(replace(world, calendar=Calendar(days)))
    assert (fault.where, fault.code) == (("calendar", "days", 1), "cook_group_apart")


def test_group_without_containers() -> None:
    """A group that burns fuel has something to carry it in."""
    assert only_fault(with_group(containers=())).code == "no_containers"


def test_group_that_burns_nothing_needs_no_containers() -> None:
    """Cold food needs no fuel and no can."""
    world = with_group(containers=())
    cold = tuple(replace(night_set, fuel_ml=0) for night_set in world.night_sets)
    assert find_faults(replace(world, night_sets=cold)) == ()


@pytest.mark.parametrize(("count", "faults"), [(2, ["too_few_containers"]), (3, []), (None, [])])
def test_reserve_takes_a_can_of_its_own(count: int | None, faults: list[str]) -> None:
    """Three nights burn 1200 mL and the reserve is 800 mL.

    Two cans of 1000 mL hold as much, but the second is open when the reserve must be whole.
    """
    assert codes(with_cans(count)) == faults


def test_a_group_short_of_cans_is_told_how_many_it_needs() -> None:
    """With one can of the three that just last, two more are asked for."""
    assert "It needs 3 of can in all, 2 more." in only_fault(with_cans(1)).detail
    assert "It needs 3 of can in all, 1 more." in only_fault(with_cans(2)).detail


@pytest.mark.parametrize(("content_ml", "faults"), [(299, ["too_few_containers"]), (300, [])])
def test_cans_that_just_suffice_to_burn(content_ml: int, faults: list[str]) -> None:
    """Four cans of 300 mL are burnt to the last drop where nothing is held."""
    assert codes(replace(with_cans(4, content_ml=content_ml), reserves=())) == faults


def test_reserves_at_two_places_share_no_can() -> None:
    """Two reserves of 400 mL at two places take a can each, though one can would hold both."""
    reserves = (
        Reserve("camp", "north", DESCENT, 1, "low"),
        Reserve("high", "north", DESCENT, 1, "low"),
    )
    assert codes(replace(with_cans(3), reserves=reserves)) == ["too_few_containers"]
    assert codes(replace(with_cans(4), reserves=reserves)) == []


@pytest.mark.parametrize(("bags", "faults"), [(9, ["too_few_bags"]), (10, [])])
def test_fixed_bags(bags: int, faults: list[str]) -> None:
    """Three nights of two people eat six bags and the reserve holds four."""
    assert codes(with_set(bag_count=bags)) == faults


def test_base_wait_counts_all_the_time() -> None:
    """A base wait of three nights holds six bags on top of the six that are eaten."""
    wait = Reserve("road", "north", BASE_WAIT, 3, "low")
    world = replace(with_set(bag_count=11), reserves=(wait,))
    world = replace(world, cook_groups=with_cans(None).cook_groups)
    assert codes(world) == ["too_few_bags"]


@pytest.mark.parametrize("kind", [STORM, DESCENT])
def test_reserve_where_nobody_sleeps(kind: ReserveKind) -> None:
    """A reserve for people who sleep at a place needs people who do."""
    fault = only_fault(with_reserves(Reserve("cache", "north", kind, 1, "low")))
    assert (fault.where, fault.code) == (("reserves", 0, "place_id"), "nobody_sleeps_here")


def test_reserve_of_unknown_things() -> None:
    """Place, cook group and night set of a reserve must exist, and its nights be some."""
    world = with_reserves(
        Reserve("top", "north", STORM, 0, "fancy"), Reserve("high", "west", STORM, 1, "low")
    )
    assert codes(world) == ["too_small", "unknown_id", "unknown_id", "unknown_id"]


def test_container_faults() -> None:
    """A can holds something, weighs something and is not called as a night set is."""
    cans = (
        Container("low", "north", 1, 1, 1),
        Container("x", "south", 0, 0, -1, count=-1),
        Container("x", "north", 1, 1, 1),
    )
    expected = ["duplicate_id", "duplicate_id", "unknown_id", *["too_small"] * 4]
    assert codes(with_group(containers=cans)) == expected


def test_set_twice_for_one_group() -> None:
    """A night set stands once for each cook group."""
    world = small_world()
    twice = (*world.night_sets, NightSet("low", "south", 1, 0, 0, 1, 1))
    fault = only_fault(replace(world, night_sets=twice))
    assert (fault.where, fault.code) == (("night_sets", 2, "set_id"), "duplicate_id")


def test_settings_out_of_range() -> None:
    """Sacks that hold nothing and negative settings are each at fault."""
    world = replace(
        small_world(),
        waste=Waste(-1, 0, 0, -1, -1),
        fuel_density_g_per_l=0,
        fuel_margin_percent=-1,
    )
    assert codes(world) == ["too_small"] * 7


@pytest.mark.parametrize(
    ("contents", "counts", "wanted", "fits"),
    [
        ((750,), (2,), (750, 750), True),
        ((750,), (2,), (751, 1), False),
        ((750,), (3,), (751, 1), True),
        ((3800, 750), (1, 1), (3801,), True),
        ((3800, 750), (1, 1), (3800, 751), False),
        ((3800, 750), (1, 4), (2541, 1271, 1501), False),
        ((3800, 750), (1, 4), (2541, 1271, 750), True),
        ((), (), (), True),
        ((), (), (1,), False),
    ],
)
def test_whole_containers(
    contents: tuple[int, ...], counts: tuple[int, ...], wanted: tuple[int, ...], fits: bool
) -> None:
    """Whole containers are shared out over places, and one is never in two places."""
    assert can_cover(contents, counts, wanted) is fits


def covers_by_trying(
    contents: tuple[int, ...], counts: tuple[int, ...], wanted: tuple[int, ...]
) -> bool:
    """Whether some way to give each container to a place or to nobody covers every want."""
    units = [content for content, n in zip(contents, counts, strict=True) for _ in range(n)]
    for places in product(range(len(wanted) + 1), repeat=len(units)):
        held = [0] * (len(wanted) + 1)
        for content, place in zip(units, places, strict=True):
            held[place] += content
        if all(have >= want for have, want in zip(held, wanted, strict=False)):
            return True
    return False


def test_sharing_out_agrees_with_trying_every_way() -> None:
    """On 150 small stocks of up to three kinds the answer is that of trying every way."""
    chance = random.Random(5)
    answers = set()
    for _ in range(150):
        kinds = chance.randint(1, 3)
        contents = tuple(chance.randint(1, 9) for _ in range(kinds))
        counts = tuple(chance.randint(0, 2) for _ in range(kinds))
        wanted = tuple(chance.randint(1, 9) for _ in range(chance.randint(1, 3)))
        expected = covers_by_trying(contents, counts, wanted)
        assert can_cover(contents, counts, wanted) is expected, (contents, counts, wanted)
        answers.add(expected)
    assert answers == {True, False}


def test_sharing_out_takes_bounded_effort() -> None:
    """Twenty places and three kinds of container end within the steps; then nothing is refused."""
    wanted = tuple(range(3_001, 3_021))
    effort = Effort(50_000)
    can_cover((751, 449, 230), (120, 110, 130), wanted, effort)
    assert effort.steps_left > -50_000
    assert can_cover((3,), (2,), (2, 2, 3), Effort(0)) is False
    assert can_cover((3,), (2,), (4, 1), Effort(0)) is True
