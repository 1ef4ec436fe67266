"""Equipment by purpose, food and fuel by cook group, and what is within reach."""

from __future__ import annotations

from dataclasses import replace

from solver.model.instance import equipment
from solver.model.instance.world import World, build_world
from solver.problem import Container, CookGroup, Need, NeedKind, NightSet, Purpose
from tests.rules.worlds import item, person, world

MEAL = NightSet("meal", "g1", 10, 0, 0, volume_ml=0, fuel_ml=100)
CAN = Container("can", "g1", content_ml=500, tare_g=100, volume_ml=600, count=1)


def _world(days: str = "strip-c1 c1-strip") -> World:
    gear = (
        item("stove", purpose=Purpose.STOVE),
        item("tent", purpose=Purpose.SHELTER, shelter_places=2),
        replace(item("radio", Need(NeedKind.WORN), purpose=Purpose.COMMUNICATOR), owner_id="m1"),
    )
    groups = (CookGroup("g1", (("strip", "meal"), ("c1", "meal")), (CAN,)),)
    people = (person("m1"), person("m2"))
    problem = world(days, people=people, gear=gear, groups=groups, night_sets=(MEAL,))
    return build_world(problem)


def test_things_are_found_by_purpose_and_worn_ones_are_listed_but_no_cargo() -> None:
    """A stove counts as one, a tent by its places; a worn radio is listed and worn by m1 only."""
    built = _world()
    (stove,) = equipment.things(built, Purpose.STOVE)
    assert equipment.units_of(built, Purpose.STOVE) == ((stove.index, 1),)
    assert [places for _, places in equipment.shelter_places(built)] == [2]
    assert equipment.is_listed(built, Purpose.COMMUNICATOR)
    assert equipment.things(built, Purpose.COMMUNICATOR) == ()
    assert equipment.worn_by(built, Purpose.COMMUNICATOR, ("m1", "m2")) == 1
    assert equipment.worn_by(built, Purpose.COMMUNICATOR, ("m2",)) == 0


def test_fuel_and_night_sets_count_by_what_they_hold() -> None:
    """A full can counts 500 mL before the night and what is left, 300 mL, after it."""
    built = _world()
    night = built.clock.night_event[1]
    assert sum(ml for _, ml in equipment.fuel(built, night - 1)) == 500
    assert [ml for cargo, ml in equipment.fuel(built, night) if built.cargo[cargo].born] == [300]
    assert [sets for _, sets in equipment.night_sets(built, "g1")] == [1]
    assert equipment.night_sets(built, "other") == ()
    assert equipment.set_tonight(built, "g1", 1) == MEAL


def test_reach_is_the_places_of_the_partys_day() -> None:
    """On a carry to c1 and back both ends are within reach, and everybody who is there."""
    built = _world("strip-c1-strip")
    trip = built.timeline.trips[0]
    assert equipment.places_of_day(built, trip) == ("strip", "c1")
    assert set(equipment.within_reach(built, trip)) == {"m1", "m2"}
    assert equipment.by_cook_group(built, ("m1", "m2")) == {"g1": 2}
    row = equipment.loss_row(built, "stove_survives_loss", trip, ((0, 1),), 1)
    assert (row.trip, row.place_ids, row.at_least) == (0, ("strip", "c1"), 1)


def test_nights_are_counted_from_a_day_on() -> None:
    """Of two nights one is left from day 2 on and none from day 3 on."""
    built = _world("strip-c1 c1 c1-strip")
    assert [equipment.nights_from(built, day) for day in (1, 2, 3, 9)] == [2, 1, 0, 0]
