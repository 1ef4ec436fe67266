"""Rows of an expedition that is under way are about what is to come."""

from dataclasses import replace

from solver.model.formulation.build_frame import build_frame
from solver.model.formulation.still_open import still_open
from solver.model.instance.world import build_world
from solver.model.rules import build_rows
from solver.problem import History, Standing
from tests.rules.worlds import world

DAYS = "strip-c1 c1-strip-c1 c1-strip"
STANDING = (Standing("strip", "g1/meal", 1), Standing("c1", "g1/meal", 1))


def _problem():
    return replace(world(DAYS), history=History(1, after_night=True, standing=STANDING))


def test_no_carrier_is_left_on_a_trip_that_is_over():
    """Trip 0 was made; the three others have their packs and caps."""
    frame = build_frame(_problem())
    assert [len(carriers) for carriers in frame.carriers] == [0, 1, 1, 1]
    assert [bool(rows) for rows in frame.load_rows] == [False, True, True, True]


def test_rows_on_states_that_are_settled_are_left_out():
    """Every row on a state is about one after the moment."""
    built = build_world(_problem())
    now = built.clock.moment(_problem().history)
    rows = still_open(built, build_rows(built))
    states = [row.state for row in rows if hasattr(row, "state")]
    assert states
    assert min(states) > now
    before = build_world(replace(_problem(), history=None))
    assert still_open(before, every := build_rows(before)) == every


def test_units_begin_where_they_stand():
    """One set is at c1, one at the strip; both exist from the moment on."""
    frame = build_frame(_problem())
    (bag,) = [thing for thing in frame.world.cargo if thing.unit_id == "g1/meal"]
    assert (bag.count, bag.begins) == (2, (("strip", 1), ("c1", 1)))
    assert bag.born == frame.world.clock.night_event[1]
    assert [event for event, _, _ in bag.uses] == [frame.world.clock.night_event[2]]
