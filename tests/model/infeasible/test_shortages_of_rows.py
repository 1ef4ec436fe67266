"""What the rows that fall short are called, asked of the model's own functions."""

from __future__ import annotations

import pytest

from solver.model.infeasible.explain import explain
from solver.model.infeasible.shortages import describe_shortages
from solver.model.rows import LossRow, ReachRow, Row, SomeRideRow, StockRow
from solver.progress import Watch
from solver.rulebook import RULES, RuleKind, rule
from solver.rulebook.kinds import DECISION
from tests.model.frames import box, index_of, two_with


@pytest.mark.parametrize(
    ("row", "where"),
    [
        (LossRow("stove_survives_loss", 0, ("c1",), ((0, 1),), 1), "Day 1, strip to c1"),
        (SomeRideRow("stove_when_far", 1, ((0, 1),), 1), "Day 2, c1 to strip"),
        (StockRow("reserves_held", 2, "c1", ((0, 1),), 1), "Night of day 1 at c1"),
        (ReachRow("turn_round_stock_held", 3, ("c1", "strip"), ((0, 1),), 1), "Day 2 at c1 and"),
    ],
)
def test_a_shortage_names_its_place_and_what_the_rule_offers_instead(row: Row, where: str) -> None:
    """The message begins with where and when, and the changes are the rulebook's."""
    (told,) = describe_shortages(two_with(box("box", 1_000)), [(row, 1.2)])
    assert told.message.startswith(where)
    assert ": 2 " in told.message
    said = [f"{DECISION} {way.text}" if way.is_decision else way.text for way in told.remedies]
    assert sorted(said) == sorted(rule(row.rule_id).instead)
    decisions = [way.is_decision for way in told.remedies]
    assert decisions == sorted(decisions)


def test_the_worst_of_several_rows_of_a_rule_is_told_with_their_number() -> None:
    """Of two rows that lack 1 and 3, the second is named, and that there are two."""
    rows: list[tuple[Row, float]] = [
        (StockRow("reserves_held", 2, place, ((0, 1),), n), float(n))
        for place, n in (("strip", 1), ("c1", 3))
    ]
    (told,) = describe_shortages(two_with(box("box", 1_000)), rows)
    assert "at c1: 3 " in told.message
    assert "It is so at 2 times or places." in told.message


def test_an_explanation_names_the_trip_and_what_is_too_much() -> None:
    """A box of 25 kg in a pack of 20 kg: 5 kg too much on the way up, and on the way down."""
    frame = two_with(box("box", 25_000, owner_id="m1"))
    told = explain(frame, Watch(20.0))
    assert {conflict.rule_id for conflict in told} == {"pack_cap_held"}
    assert any("5.0 kg too much" in conflict.message for conflict in told)
    assert index_of(frame, "m1/box") >= 0


def test_only_hard_rules_say_what_to_change_where_there_is_no_plan() -> None:
    """A preference never leaves a request without a plan, so it has nothing to offer instead."""
    assert all(rule.kind is RuleKind.HARD for rule in RULES if rule.instead)
    assert all(rule.kind is RuleKind.PREFERENCE for rule in RULES if rule.steered)


def test_bags_of_one_set_are_counted_as_sets_and_not_as_nights() -> None:
    """A reserve of four nights for one person lacks two bags: two night sets, not two nights."""
    frame = two_with(box("box", 1_000))
    row = StockRow("reserves_held", 2, "c1", ((index_of(frame, "g1/meal"), 1),), 4)
    (told,) = describe_shortages(frame, [(row, 2.0)])
    assert told.unit == "night sets"
    assert ": 2 night sets short" in told.message
