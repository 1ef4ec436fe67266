"""Faults of the roster, its sleds, and gear."""

from dataclasses import replace

import pytest

from solver.problem import (
    Calendar,
    Caps,
    Direction,
    Item,
    Leg,
    LegMode,
    Need,
    NeedKind,
    Person,
    Problem,
    Purpose,
    Sled,
)
from solver.problem.faults import find_faults
from tests.problem.small_world import apart, codes, day, only_fault, small_world, with_legs

EVERY_NIGHT, EVERY_TRIP, AT_PLACE = NeedKind.EVERY_NIGHT, NeedKind.EVERY_TRIP, NeedKind.AT_PLACE


def with_person(**changes: object) -> Problem:
    """The small world with its last person, di, changed."""
    world = small_world()
    return replace(world, roster=(*world.roster[:3], replace(world.roster[3], **changes)))  # type: ignore[arg-type]


def with_item(item: Item) -> Problem:
    """The small world with one more item, which stands at index 3."""
    world = small_world()
    return replace(world, gear=(*world.gear, item))


def with_sleds(*sleds: Sled) -> Problem:
    """The small world with other sleds."""
    return replace(small_world(), sleds=sleds)


def test_person_twice() -> None:
    """The second person of one id is at fault, and what both own is not told on top."""
    world = with_item(Item("mug", 1, 1, Need(EVERY_NIGHT), owner_id="bo", count=1))
    mugs = (*world.gear, world.gear[-1])
    people = with_person(person_id="bo").roster
    fault = only_fault(replace(world, gear=mugs, roster=people))
    assert (fault.where, fault.code) == (("roster", 3, "person_id"), "duplicate_id")


def test_empty_roster() -> None:
    """A trip without people is told so first of all."""
    faults = find_faults(replace(small_world(), roster=()))
    assert (("roster",), "empty") in [(fault.where, fault.code) for fault in faults]


def test_unknown_cook_group() -> None:
    """A person's cook group must be one of those that are fed."""
    assert only_fault(with_person(cook_group_id="west")).code == "unknown_id"


@pytest.mark.parametrize("word", ["sled", "trash", "human-waste"])
def test_reserved_words(word: str) -> None:
    """Nobody is called as sacks and sleds are in a plan."""
    assert only_fault(with_person(person_id=word)).code == "reserved_id"


@pytest.mark.parametrize(
    ("caps", "where"),
    [
        (Caps(pack_g=0), ("roster", 3, "caps", "pack_g")),
        (Caps(pack_g=1, sled_g=-1), ("roster", 3, "caps", "sled_g")),
        (Caps(pack_g=1, total_g=0), ("roster", 3, "caps", "total_g")),
        (
            Caps(pack_g=1, pack_by_leg=((LegMode.PACK, Direction.OUTBOUND, 0),)),
            ("roster", 3, "caps", "pack_by_leg", 0),
        ),
    ],
)
def test_caps_that_carry_nothing(caps: Caps, where: tuple[str | int, ...]) -> None:
    """A cap of nothing or less is at fault; a cap of one gram is not."""
    fault = only_fault(with_person(caps=caps))
    assert (fault.where, fault.code) == (where, "too_small")


def test_least_cap_is_no_fault() -> None:
    """A cap of one gram is silly but no contradiction: planning says what it leads to."""
    assert find_faults(with_person(caps=Caps(pack_g=1))) == ()


def test_person_fields_below_zero() -> None:
    """Negative water, lunch, body mass and an empty pack volume are each at fault."""
    world = with_person(water_g=-1, first_lunch_g=-1, body_mass_g=0, pack_volume_ml=0)
    assert codes(world) == ["too_small"] * 4


def test_fuel_is_not_worn() -> None:
    """A canister that is worn would be in no load, in no aircraft and in no cache."""
    gas = Item("gas", 350, 500, Need(NeedKind.WORN), owner_id="bo", purpose=Purpose.FUEL)
    fault = only_fault(with_item(gas))
    assert (fault.where, fault.code) == (("gear", 3, "need", "kind"), "fuel_worn")
    assert find_faults(with_item(replace(gas, need=Need(EVERY_NIGHT)))) == ()


def test_sled_of_an_unknown_hauler() -> None:
    """A sled's hauler must be on the roster."""
    assert only_fault(with_sleds(Sled("s", "zoe", 1, 2, 3))).code == "unknown_id"


def test_sled_of_who_has_no_sled_cap() -> None:
    """A hauler needs a sled cap."""
    assert only_fault(with_sleds(Sled("s", "bo", 3000, 4000, 3))).code == "no_sled_cap"


def test_a_second_hauler_is_held_to_what_a_first_is() -> None:
    """Who helps to pull needs a sled cap, pulls no other sled, and takes a share below all."""
    sled = replace(small_world().sleds[0], second_hauler_id="bo")
    assert only_fault(with_sleds(sled)).where == ("sleds", 0, "second_hauler_id")
    twice = replace(sled, second_hauler_id=sled.hauler_id)
    assert only_fault(with_sleds(twice)).code == "hauls_two_sleds"


def test_two_sleds_with_one_hauler() -> None:
    """Nobody hauls two sleds; the second is at fault."""
    sled = small_world().sleds[0]
    fault = only_fault(with_sleds(sled, replace(sled, sled_id="other")))
    assert (fault.where, fault.code) == (("sleds", 1, "hauler_id"), "hauls_two_sleds")


def test_sled_heavier_than_its_limit() -> None:
    """A sled's limit is gross and so over its tare."""
    assert only_fault(with_sleds(Sled("s", "ann", 3000, 3000, 1))).code == "too_small"


@pytest.mark.parametrize("share", [9, 10])
def test_sled_that_comes_down_too_heavy(share: int) -> None:
    """A sled of 3 kg with limits of 30 kg needs a tenth of them on the way down."""
    _, l2, l3 = small_world().route.legs
    steep = Leg("l1", "road", "camp", LegMode.SLED, sled_factor_homeward_percent=share)
    assert codes(with_legs(steep, l2, l3)) == (["sled_cannot_go"] if share < 10 else [])


def test_sled_that_a_leg_does_not_let_pass() -> None:
    """A leg on which the sled's share of its limits is under its tare is at fault."""
    _, l2, l3 = small_world().route.legs
    steep = Leg("l1", "road", "camp", LegMode.SLED, sled_factor_outbound_percent=5)
    fault = only_fault(with_legs(steep, l2, l3))
    assert (fault.where, fault.code) == (("route", "legs", 0), "sled_cannot_go")


@pytest.mark.parametrize(
    ("item", "where", "code"),
    [
        (Item("tent", 1, 1, Need(EVERY_NIGHT), rope_team_id="north"), "item_id", "duplicate_id"),
        (Item("x", 1, 1, Need(EVERY_NIGHT), owner_id="zoe"), "owner_id", "unknown_id"),
        (Item("x", 1, 1, Need(EVERY_NIGHT), rope_team_id="zoe"), "rope_team_id", "unknown_id"),
        (Item("x", 1, 1, Need(EVERY_NIGHT, up_to="top")), "up_to", "unknown_id"),
        (Item("x", 1, 1, Need(EVERY_NIGHT, from_place="top")), "from_place", "unknown_id"),
        (Item("x", 1, 1, Need(AT_PLACE)), "up_to", "missing"),
        (
            Item("x", 1, 1, Need(AT_PLACE, up_to="camp", may_follow=True)),
            "may_follow",
            "cannot_follow",
        ),
        (
            Item("x", 1, 1, Need(EVERY_NIGHT, may_go_ahead=True, may_follow=True)),
            "may_follow",
            "cannot_follow",
        ),
        (Item("x", 0, 1, Need(EVERY_NIGHT)), "mass_g", "too_small"),
        (Item("x", 1, -1, Need(EVERY_NIGHT)), "volume_ml", "too_small"),
        (Item("x", 1, 1, Need(EVERY_NIGHT), count=0), "count", "too_small"),
        (
            Item("x", 1, 1, Need(EVERY_NIGHT, from_place="high", up_to="camp")),
            "up_to",
            "not_on_one_line",
        ),
        (Item("x", 1, 1, Need(AT_PLACE, up_to="cache")), "up_to", "never_reached"),
    ],
)
def test_item_faults(item: Item, where: str, code: str) -> None:
    """Each contradiction of an item is told once, at the field that has it."""
    fault = only_fault(with_item(item))
    assert (fault.where[:2], fault.where[-1], fault.code) == (("gear", 3), where, code)


def test_owner_may_have_what_others_have() -> None:
    """The same personal item of two owners is two things and no fault."""
    assert find_faults(with_item(Item("bag", 1, 1, Need(EVERY_NIGHT), owner_id="bo"))) == ()


def split_world(item: Item) -> Problem:
    """The small world where one rope team stays at camp while the other goes on."""
    world = with_item(item)
    days = (
        day("road", "camp"),
        apart(("camp", "high"), ("camp",)),
        apart(("high", "camp"), ("camp",)),
        day("camp", "road"),
    )
    return replace(world, calendar=Calendar(days))


@pytest.mark.parametrize("kind", [EVERY_NIGHT, EVERY_TRIP])
def test_shared_item_while_people_are_apart(kind: NeedKind) -> None:
    """What everybody needs cannot be in two places."""
    fault = only_fault(split_world(Item("x", 1, 1, Need(kind))))
    assert (fault.where, fault.code) == (("gear", 3), "people_apart")


@pytest.mark.parametrize(
    "item",
    [
        Item("x", 1, 1, Need(EVERY_TRIP), rope_team_id="north"),
        Item("x", 1, 1, Need(EVERY_NIGHT, up_to="camp")),
        Item("x", 1, 1, Need(EVERY_TRIP, up_to="camp")),
        Item("x", 1, 1, Need(AT_PLACE, up_to="high")),
    ],
)
def test_items_that_do_not_mind(item: Item) -> None:
    """A rope team's item, one that stays where all are or were, and one of a place are fine."""
    assert find_faults(split_world(item)) == ()


def test_everybody_named_is_a_person() -> None:
    """The faults of a person are told at that person, whoever comes first."""
    world = small_world()
    people = (replace(world.roster[0], pack_volume_ml=0), *world.roster[1:])
    fault = only_fault(replace(world, roster=people))
    assert fault.where == ("roster", 0, "pack_volume_ml")
    assert isinstance(people[0], Person)
