"""Single units that go into no load at all."""

from solver.model.infeasible.whole_units import units_that_fit_nowhere
from tests.model.frames import box, two_with


def test_a_unit_above_every_cap_is_named_once_with_its_trip():
    """A box of 25 kg for packs of 20 kg is named on its first trip; one of 6 kg is not."""
    (conflict,) = units_that_fit_nowhere(two_with(box("safe", 25_000), box("tent", 6_000)))
    assert conflict.rule_id == "pack_cap_held"
    assert dict(conflict.where)["unit"] == "safe"
    assert dict(conflict.where)["day"] == 1
    assert "25.0 kg" in conflict.message


def test_what_somebody_can_take_alone_is_no_conflict():
    """Boxes that fit one by one are no matter of single units, however many they are."""
    assert units_that_fit_nowhere(two_with(*(box(f"b{n}", 9_000) for n in range(9)))) == ()
