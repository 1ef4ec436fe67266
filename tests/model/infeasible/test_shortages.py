"""What is said where loads fit but something that must be somewhere cannot be there."""

from __future__ import annotations

from dataclasses import replace

from solver.outcome import Conflict, Infeasible, Limits
from solver.pipeline import plan
from solver.problem import (
    Container,
    CookGroup,
    Item,
    NightSet,
    Problem,
    Purpose,
    Reserve,
    ReserveKind,
)
from tests.rules.worlds import EVERY_NIGHT, asked_alone, item, on_glacier, person, world

STEADY = Limits(wall_seconds=20.0, workers=1, seed=1)
TWO = (person("m1"), person("m2"))


def refused(problem: Problem) -> Conflict:
    """The one conflict of a problem that has no plan."""
    outcome = plan(problem, STEADY)
    assert isinstance(outcome, Infeasible)
    (conflict,) = outcome.conflicts
    return conflict


def with_purpose(thing: Item, purpose: Purpose, *, places: int = 0) -> Item:
    """An item that is good for something."""
    return replace(thing, purpose=purpose, shelter_places=places)


def test_a_single_tent_is_told_with_the_trip_and_the_places_that_lack() -> None:
    """Two people with one tent for two lose both places with whichever pack has it."""
    tent = with_purpose(item("tent", EVERY_NIGHT), Purpose.SHELTER, places=2)
    days = "strip-c1 c1-strip"
    problem = on_glacier(world(days, people=TWO, gear=(tent,)))
    told = refused(asked_alone(problem, "shelter_survives_loss"))
    assert told.rule_id == "shelter_survives_loss"
    assert "Day 1, strip to c1: 2 places short" in told.message
    assert [way.text for way in told.remedies] == ["take one more tent or shelter bag"]


def test_one_place_is_told_in_the_singular() -> None:
    """A tent for two and a shelter for one leave one place too few when the tent is lost."""
    gear = tuple(
        with_purpose(item(name, EVERY_NIGHT), Purpose.SHELTER, places=places)
        for name, places in (("tent", 2), ("bag", 1))
    )
    problem = on_glacier(world("strip-c1 c1-strip", people=TWO, gear=gear))
    told = refused(asked_alone(problem, "shelter_survives_loss"))
    assert "1 place short" in told.message


def test_a_can_too_large_to_be_lost_is_told_in_millilitres() -> None:
    """Of one can of a litre nothing is left when its pack is lost, and a night burns 200 mL."""
    meal = NightSet("meal", "g1", 10, 0, 0, volume_ml=0, fuel_ml=100)
    can = Container("can", "g1", content_ml=1000, tare_g=100, volume_ml=1200, count=1)
    groups = (CookGroup("g1", (("strip", "meal"), ("c1", "meal")), (can,)),)
    days = "strip-c1 c1-strip"
    problem = world(days, people=TWO, groups=groups, night_sets=(meal,))
    told = refused(asked_alone(on_glacier(problem), "fuel_survives_loss"))
    assert told.rule_id == "fuel_survives_loss"
    assert "200 mL of fuel short" in told.message
    assert any(way.text == "take one more fuel container" for way in told.remedies)


def test_a_reserve_too_heavy_for_the_packs_names_the_trip_that_lacks_kilograms() -> None:
    """Three kilograms of food in a pack of two: one kilogram is too much on the way up."""
    meal = NightSet("meal", "g1", 1000, 0, 0, volume_ml=0, fuel_ml=0)
    storm = (Reserve("c1", "g1", ReserveKind.STORM, 2, "meal"),)
    people = (person(pack_g=2000),)
    problem = world("strip-c1 c1-strip", people=people, night_sets=(meal,), reserves=storm)
    told = refused(problem)
    assert told.rule_id == "pack_cap_held"
    assert "1.0 kg too much" in told.message


def spared(**more: object) -> Problem:
    """A person limited to 8 kg who owns 9.5 kg that must come along, with a strong companion."""
    weak = replace(person("m1"), load_limit_g=8000, load_limit_reason="sprained ankle", **more)
    kit = (
        item("sleeping-kit", EVERY_NIGHT, mass_g=6500, owner_id="m1"),
        item("day-kit", mass_g=3000, owner_id="m1"),
    )
    return world("strip-c1 c1-strip", people=(weak, person("m2")), gear=kit)


def test_somebody_who_cannot_carry_their_own_kit_is_named_with_the_shortfall() -> None:
    """9.5 kg of own kit under a limit of 8 kg lack 1.5 kg, and the reason is repeated."""
    told = refused(spared())
    assert told.rule_id == "load_limit_held"
    assert "what only m1 can carry (own kit, water and lunch) is 1.5 kg too much" in told.message
    assert "for the load limit of 8.0 kg (sprained ankle)" in told.message
    assert (told.amount, told.unit, dict(told.where)["person"]) == (1500, "g", "m1")
    assert any("rope team" in way.text for way in told.remedies)


def test_the_rope_team_may_carry_what_somebody_spared_owns() -> None:
    """What is offered instead works: with the kit open to the rope team there is a plan."""
    outcome = plan(spared(kit_to_rope_team=True), STEADY)
    assert not isinstance(outcome, Infeasible)
