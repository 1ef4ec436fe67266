"""Nights of waiting: the calendar moves on, storm sets and the storm reserve are used up."""

from dataclasses import replace

from solver.problem import CookGroup, Evacuation, History, Reserve, ReserveKind, Standing
from solver.rest.wait import with_nights_waited
from tests.rules.worlds import MEAL, person, world

STORM = replace(MEAL, set_id="storm", storm=True)
HELD = Reserve("c1", "g1", ReserveKind.STORM, 2, "storm")


def _at_c1(after_night=False, storm_bags=3, **changes):
    problem = world(
        "strip-c1 c1-strip-c1 c1-strip",
        people=(person("m1"),),
        groups=(CookGroup("g1", (("strip", "meal"), ("c1", "meal"))),),
        night_sets=(MEAL, STORM),
    )
    standing = (Standing("c1", "g1/storm", storm_bags),)
    return replace(
        problem, history=History(1, after_night, standing=standing), reserves=(HELD,), **changes
    )


def test_the_days_waited_follow_the_moment():
    """Two days at c1 come after day 1, then the calendar as it was."""
    waited, _ = with_nights_waited(_at_c1(), 2)
    places = [day.visits[0].places for day in waited.calendar.days]
    assert places == [("strip", "c1"), ("c1",), ("c1",), ("c1", "strip", "c1"), ("c1", "strip")]
    assert [day.note for day in waited.calendar.days].count("waiting") == 2


def test_storm_sets_are_eaten_first_as_far_as_they_stand_there():
    """In the evening the night at hand counts; in the morning the next one does."""
    evening, _ = with_nights_waited(_at_c1(), 2)
    assert evening.cook_groups[0].set_on == ((1, "storm"), (2, "storm"))
    morning, _ = with_nights_waited(_at_c1(after_night=True), 2)
    assert morning.cook_groups[0].set_on == ((2, "storm"), (3, "storm"))
    few, _ = with_nights_waited(_at_c1(storm_bags=1), 2)
    assert few.cook_groups[0].set_on == ((1, "storm"),)


def test_the_storm_reserve_is_used_up_and_told():
    """One night of two leaves one; three nights leave none, and no more than two are used."""
    waited, spent = with_nights_waited(_at_c1(), 1)
    assert [(one.nights, one.left) for one in spent] == [(1, 1)]
    assert waited.reserves == (replace(HELD, nights=1),)
    assert dict(waited.rules.waived)["storm_reserve_planned"] == "waiting at c1"
    _, longer = with_nights_waited(_at_c1(), 3)
    assert [(one.nights, one.left) for one in longer] == [(2, 0)]


def test_no_night_waited_changes_nothing():
    """Neither 0 nights nor an expedition that has not begun."""
    problem = _at_c1()
    assert with_nights_waited(problem, 0) == (problem, ())
    unbegun = replace(problem, history=None)
    assert with_nights_waited(unbegun, 2) == (unbegun, ())


def test_days_that_are_named_move_along():
    """An evacuation asked for day 3 is asked for day 5 after two nights of waiting."""
    problem = _at_c1(evacuations=(Evacuation("m1", 3), Evacuation("m1", 1), Evacuation("m1")))
    waited, _ = with_nights_waited(problem, 2)
    assert [one.day for one in waited.evacuations] == [5, 1, None]
