"""Classes of identical units and how long they exist."""

from __future__ import annotations

from solver.model.formulation.build_frame import build_frame
from solver.model.instance.cargo import CargoKind
from solver.model.instance.world import build_world
from solver.problem import Container, CookGroup, Need, NeedKind, NightSet, Waste
from tests.model.frames import cargo_of, two_with
from tests.rules.worlds import item, person, world


def test_a_bag_has_its_uses_and_what_is_worn_is_no_cargo() -> None:
    """Two people use two bags on the night at c1; a worn jacket rides nowhere."""
    frame = two_with(item("jacket", Need(NeedKind.WORN)))
    assert [cargo.unit_id for cargo in frame.world.cargo] == ["g1/meal"]
    bag = cargo_of(frame, "g1/meal")
    assert (bag.kind, bag.is_stock, bag.count) == (CargoKind.BAG, True, 2)
    assert bag.uses == ((frame.world.clock.night_event[1], "c1", 2),)


def test_a_container_is_full_then_open_then_empty() -> None:
    """A can of 250 mL, burnt at 200 mL a night, is open after one night and empty after two."""
    meal = NightSet("meal", "g1", 10, 0, 0, volume_ml=0, fuel_ml=200)
    can = Container("can", "g1", content_ml=250, tare_g=100, volume_ml=300, count=2)
    groups = (CookGroup("g1", (("strip", "meal"), ("c1", "meal")), (can,)),)
    problem = world("strip-c1 c1 c1-strip", groups=groups, night_sets=(meal,))
    cargo = build_frame(problem).world.cargo
    kinds = {one.unit_id: one for one in cargo if one.fuel_ml or one.kind is CargoKind.EMPTY}
    open_one = kinds["g1/can/open-1"]
    assert open_one.fuel_ml == 50
    assert open_one.is_there(open_one.born)
    assert open_one.dies is not None
    assert not open_one.is_there(open_one.dies)
    assert not open_one.is_stock
    assert kinds["g1/can/empty-1"].mass_g == 100


def test_a_sack_exists_from_the_last_night_of_its_stay() -> None:
    """Trash of one night at c1 comes down in one sack, born with that night."""
    meal = NightSet("meal", "g1", 100, 40, 0, volume_ml=0, fuel_ml=0)
    problem = world("strip-c1 c1-strip", night_sets=(meal,), people=(person(),))
    built = build_world(problem)
    (sack,) = [cargo for cargo in built.cargo if cargo.kind is CargoKind.SACK]
    assert (sack.birthplace, sack.born, sack.mass_g) == ("c1", built.clock.night_event[1], 40)
    assert problem.waste == Waste()
