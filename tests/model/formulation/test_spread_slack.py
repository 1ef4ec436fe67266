"""What one carrier may hold by the spread rows of a trip."""

from __future__ import annotations

from solver.model.formulation.build_frame import sort_rows
from solver.model.formulation.redundant_losses import without_redundant_losses
from solver.model.formulation.spread_slack import spread_slack
from solver.model.rows import ApartRow, CountRow, LossRow
from solver.model.rules import build_rows
from tests.model.frames import box, index_of, two_with


def _with(*rows):
    frame = two_with(*(box(f"b{n}", 1_000) for n in range(3)))
    return sort_rows(frame.world, [*build_rows(frame.world), *rows])


def test_each_kind_of_spread_row_leaves_its_slack() -> None:
    """Of three boxes all but one or half, of a count the count, of a loss what may be lost."""
    frame = two_with(*(box(f"b{n}", 1_000) for n in range(3)))
    boxes = tuple(index_of(frame, f"b{n}") for n in range(3))
    terms = tuple((cargo, 1) for cargo in boxes)
    frame = _with(
        ApartRow("kinds_kept_apart", 0, boxes, half=False),
        ApartRow("fuel_spread", 0, boxes, half=True),
        CountRow("stoves_kept_apart", 0, terms, 1),
        LossRow("stove_survives_loss", 0, ("c1",), terms, 1),
    )
    rides = {(cargo, trip): 1 for cargo in boxes for trip in (0, 1)}
    assert spread_slack(frame, rides) == [(2, 2, 1, 2), ()]


def test_a_loss_that_cannot_hurt_is_left_out() -> None:
    """Two bags used at c1 stay behind there while the trip home is under way, one box does not."""
    frame = two_with(*(box(f"b{n}", 1_000) for n in range(3)))
    bag = index_of(frame, "g1/meal")
    harmless = LossRow("food_survives_loss", 0, ("strip", "c1"), ((bag, 1),), 0)
    harmful = LossRow("food_survives_loss", 0, ("strip", "c1"), ((bag, 1),), 1)
    frame = without_redundant_losses(_with(harmless, harmful))
    assert frame.spread_rows[0] == (harmful,)
