"""What the parts of a problem answer about themselves: look-ups, names of units, caps, ways."""

from dataclasses import replace

import pytest

from solver.problem.calendar import Day, Visit
from solver.problem.gear import Item, Need, NeedKind
from solver.problem.problem import RuleSettings
from solver.problem.roster import Caps, Sled
from solver.problem.route import Direction, Hazard, Leg, LegMode, Place, Route
from solver.problem.supplies import Container, CookGroup, NightSet
from solver.rulebook import RuleKind
from tests.problem.small_world import small_world, with_legs

NIGHTLY = Need(NeedKind.EVERY_NIGHT)
HARD = "night_sets_held"


def test_a_day_knows_the_visit_of_each_rope_team():
    """A rope team finds its own visit; one that the day does not have is an error."""
    north, south = Visit(("north",), ("a", "b")), Visit(("south",), ("a",))
    assert Day((north, south)).visit_of("south") is south
    with pytest.raises(KeyError):
        Day((north,)).visit_of("south")


def test_a_personal_item_is_named_after_its_owner():
    """A plan names a personal item with its owner in front, a shared one by its id alone."""
    tent = Item("tent", 3_000, 9_000, NIGHTLY)
    assert tent.unit_id == "tent"
    assert replace(tent, owner_id="ann").unit_id == "ann/tent"


def test_what_is_strapped_outside_takes_no_room():
    """The packed volume of an item outside is nought, of any other its own."""
    tent = Item("tent", 3_000, 9_000, NIGHTLY)
    assert tent.packed_volume_ml == 9_000
    assert replace(tent, outside=True).packed_volume_ml == 0


def test_a_pack_cap_for_a_leg_goes_before_the_general_one():
    """The cap of a mode and direction holds only there."""
    caps = Caps(25_000, pack_by_leg=((LegMode.SUMMIT, Direction.OUTBOUND, 12_000),))
    assert caps.pack_on(LegMode.SUMMIT, Direction.OUTBOUND) == 12_000
    assert caps.pack_on(LegMode.SUMMIT, Direction.HOMEWARD) == 25_000
    assert caps.pack_on(LegMode.PACK, Direction.OUTBOUND) == 25_000


def test_two_haulers_share_a_sled_and_one_pulls_it_all():
    """The shares of a sled's haulers add up to the whole, the first hauler first."""
    sled = Sled("s", "ann", 3_000, 40_000, 120_000)
    assert sled.shares() == (("ann", 100),)
    assert replace(sled, second_hauler_id="bo", second_share_percent=40).shares() == (
        ("ann", 60),
        ("bo", 40),
    )


def test_the_way_between_two_branches_leads_through_their_fork():
    """From the high camp to the cache aside one comes through the camp, and home likewise."""
    route = small_world().route
    assert route.path("high", "cache") == ("high", "camp", "cache")
    assert route.way_home("high") == ("high", "camp", "road")
    assert route.path("camp", "camp") == ("camp",)


def test_beyond_means_that_the_way_home_leads_through():
    """The high camp is beyond the camp and itself, not beyond the cache aside."""
    route = small_world().route
    assert route.is_at_or_beyond("high", "camp")
    assert route.is_at_or_beyond("high", "high")
    assert not route.is_at_or_beyond("high", "cache")
    assert not route.is_at_or_beyond("camp", "high")


def test_a_leg_joins_its_places_in_both_directions():
    """A leg is found from either end; places that nothing joins have none."""
    route = Route((Place("a", 0), Place("b", 9)), (Leg("l", "a", "b", LegMode.PACK),))
    assert route.leg_between("b", "a") is route.leg_between("a", "b")
    with pytest.raises(KeyError):
        route.leg_between("a", "c")


def test_supplies_are_named_after_their_cook_group():
    """Bags and containers have their cook group in front, and places their night set."""
    assert NightSet("low", "north", 900, 60, 300, 2_000, 200).unit_id == "north/low"
    assert Container("can", "north", 1_000, 150, 1_100).unit_id == "north/can"
    group = CookGroup("north", (("camp", "low"),))
    assert group.set_id_at("camp") == "low"
    with pytest.raises(KeyError):
        group.set_id_at("high")


def test_an_elevation_band_begins_at_its_limit():
    """A place exactly at the number of the rulebook or the request belongs to the higher band."""
    rules = RuleSettings(numbers=(("middle_from_m", 3_000), ("high_from_m", 4_000)))
    bands = [rules.elevation_band(elevation) for elevation in (2_999, 3_000, 3_999, 4_000)]
    assert bands == ["low", "mid", "mid", "high"]


def test_a_waived_rule_is_an_advisory_with_its_reason():
    """A hard rule that is waived only warns, and a plan need not keep it."""
    world = small_world()
    assert world.must_keep(HARD)
    assert world.rules.reason_for(HARD) == ""
    waived = replace(world, rules=RuleSettings(waived=((HARD, "tried before"),)))
    assert waived.rules.kind_of(HARD) is RuleKind.ADVISORY
    assert waived.rules.reason_for(HARD) == "tried before"
    assert waived.asks(HARD)
    assert not waived.must_keep(HARD)


def test_rules_of_glaciers_are_asked_once_a_leg_gives_its_hazard():
    """Without any crevasse hazard no rule of glaciers is asked; with one all of them are."""
    world = small_world()
    first, *rest = world.route.legs
    glaciated = with_legs(replace(first, crevasse_hazard=Hazard.LOW), *rest)
    assert not world.asks("stove_survives_loss")
    assert glaciated.is_glaciated
    assert glaciated.asks("stove_survives_loss")


def test_a_problem_finds_its_people_groups_and_sets_by_id():
    """Each look-up gives the part of that id and an error for any other."""
    world = small_world()
    assert world.start_place == "road"
    assert [person.person_id for person in world.members("south")] == ["cy", "di"]
    assert world.person("bo") is world.roster[1]
    assert world.night_set("south", "low") is world.night_sets[1]
    for ask in (world.person, world.cook_group, lambda key: world.night_set("north", key)):
        with pytest.raises(KeyError):
            ask("nobody")
