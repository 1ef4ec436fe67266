"""Why there is no greedy plan: day and reason."""

from __future__ import annotations

from dataclasses import replace

from solver.model.construction.greedy_failure import (
    Stranded,
    broken_words,
    day_of,
    stranded_words,
    unpacked_words,
)
from solver.model.construction.greedy_plan import greedy_plan
from solver.model.construction.pack_greedily import Unpacked, pack_greedily
from solver.model.formulation.build_frame import build_frame, sort_rows
from solver.model.rows import ApartRow, StockRow
from solver.model.rules import build_rows
from solver.model.run import Run
from solver.outcome import Limits
from solver.progress import Watch
from tests.model.frames import TWO, index_of
from tests.rules.worlds import item, person, world

THERE_AND_BACK = "strip-c1 c1-strip"


def test_a_trip_that_does_not_fit_is_named_with_day_person_and_amount() -> None:
    """A thing of 21 kg and a meal of 10 g in a pack of 20 kg are 1.01 kg over on day 1."""
    frame = build_frame(world(THERE_AND_BACK, gear=(item("box", mass_g=21_000),)))
    found = greedy_plan(frame, Limits(), Watch(5.0))
    assert found.draft is None
    assert found.reason.startswith("Day 1, strip to c1: ")
    assert "m1 would be 1.01 kg over" in found.reason
    assert "pack" in found.reason.lower()


def test_a_rule_on_sharing_out_is_named_where_it_is_broken() -> None:
    """Two things that one person alone walks with cannot be apart: their rule is told."""
    plain = build_frame(world(THERE_AND_BACK, gear=(item("box", count=2),), people=(person("m1"),)))
    rows = [row for row in build_rows(plain.world) if not isinstance(row, ApartRow)]
    row = ApartRow("kinds_kept_apart", 0, (index_of(plain, "box"),), half=False)
    frame = sort_rows(plain.world, [*rows, row])
    packed = pack_greedily(frame, {(index_of(plain, "box"), 0): 2}, Run(2.0))
    assert isinstance(packed, Unpacked)
    words = unpacked_words(frame, packed)
    assert words.startswith("Day 1, strip to c1: what rides that day by hand cannot be shared")
    assert "kind" in words


def test_a_row_that_the_rides_break_is_named_with_its_day() -> None:
    """Food that is to stand at c1 in the night of day 1, and does not ride, is missing on day 1."""
    plain = build_frame(world("strip-c1-strip strip-c1 c1-strip", people=TWO))
    bag, night = index_of(plain, "g1/meal"), plain.world.clock.night_event[1]
    asked = StockRow("night_sets_held", night, "c1", ((bag, 1),), 1)
    frame = sort_rows(plain.world, [*build_rows(plain.world), asked])
    assert broken_words(frame, {(bag, 2): 2}).startswith("Day 1: the rides break a rule. ")


def test_a_unit_without_a_way_is_named_with_the_day_it_should_be_there() -> None:
    """The first stop of what is stranded says the day; without a unit no day is made up."""
    frame = build_frame(world(THERE_AND_BACK, people=TWO))
    bag, night = index_of(frame, "g1/meal"), frame.world.clock.night_event[1]
    words = stranded_words(frame, Stranded(bag, ((night, "c1"),)))
    assert words == "Day 1: no way was found by hand for g1/meal to be at c1 in time."
    assert "several kinds" in stranded_words(frame, Stranded())
    assert day_of(frame.world.clock, 0) == 1
    assert day_of(replace(frame.world.clock, night_event={}), 3) == 1
