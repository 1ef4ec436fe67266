"""Units: what stands at the start place before anybody moves."""

from solver.checker.ledger.units import UnitKind, provided_units
from solver.problem import Need, NeedKind
from tests.checker.replaying import burning
from tests.rules.worlds import item, world


def test_items_bags_and_full_containers_are_provided():
    """A can of 150 mL at 700 g/L weighs 105 g of fuel and its tare; a bag is as many as said."""
    units = {unit.unit_id: unit for unit in provided_units(burning(content_ml=150))}
    can, bag = units["g1/can"], units["g1/meal"]
    assert (can.kind, can.mass_g, can.content_ml, can.provided) == (UnitKind.FULL, 205, 150, 2)
    assert (bag.kind, bag.mass_g, bag.volume_ml, bag.provided) == (UnitKind.BAG, 500, 1_000, 3)


def test_worn_and_outside_items():
    """What is worn is no unit, and what rides outside takes no volume."""
    worn = item("parka", Need(NeedKind.WORN))
    poles = item("poles", outside=True, volume_ml=3_000)
    units = {unit.unit_id: unit for unit in provided_units(world(gear=(worn, poles)))}
    assert "parka" not in units
    assert units["poles"].volume_ml == 0
