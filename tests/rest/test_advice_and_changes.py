"""What a leader reads off a plan for the rest, and what is other in it, on small worlds."""

from dataclasses import replace

from solver.plan import Plan, TripLoads
from solver.problem import History, PlaceKind
from solver.rest.advice import advise
from solver.rest.changes import changed_loads
from tests.rules.worlds import person, plan_of, world

DAYS = "strip-c1 c1-c2-c1 c1-strip"
LOADS = ({"m1": "g1/meal*4"}, {}, {}, {"m1": "g1/meal*2"})
TAKEN = {(0, "strip"): "g1/meal*4"}


def _under_way(history, loads=LOADS):
    problem = world(DAYS)
    places = (
        replace(place, kind=PlaceKind.SUMMIT) if place.place_id == "c2" else place
        for place in problem.route.places
    )
    problem = replace(problem, route=replace(problem.route, places=tuple(places)), history=history)
    return problem, plan_of(problem, *loads, stock=TAKEN)


def test_waits_begin_with_the_night_at_hand():
    """In the evening of day 1 the first wait is that of night 1; in its morning too."""
    for history in (History(1), History(1, after_night=True)):
        advice = advise(*_under_way(history))
        assert [wait.day for wait in advice.waits] == [1, 2]
    assert [wait.day for wait in advise(*_under_way(History(2))).waits] == [2]


def test_the_next_move_is_the_first_trip_to_come():
    """After day 1 it is the way to the summit, after day 2 the way home with two sets."""
    first = advise(*_under_way(History(1))).next_move
    assert first is not None
    assert (first.day, first.from_place, first.to_place) == (2, "c1", "c2")
    last = advise(*_under_way(History(2))).next_move
    assert last is not None
    assert (last.from_place, last.to_place, last.load_g) == ("c1", "strip", 20)


def test_the_load_of_the_next_move_is_the_largest_of_its_day():
    """On day 2 the way back from c2 has more mass than the way there, and another has it."""
    people = (person("m1", pack_g=2_000), person("m2", pack_g=40))
    problem = replace(world(DAYS, people=people), history=History(1))
    loads = ({"m1": "g1/meal*4"}, {"m2": "g1/meal*2"}, {"m1": "g1/meal*3"}, {})
    move = advise(problem, plan_of(problem, *loads, stock=TAKEN)).next_move
    assert move is not None
    assert (move.from_place, move.to_place) == ("c1", "c2")
    assert move.way == ("c1", "c2", "c1")
    assert (move.person_id, move.load_g) == ("m1", 30)
    assert move.fraction < 500


def test_the_summit_may_be_as_late_as_spare_nights_allow():
    """Four sets, one of them eaten on night 1 and one on night 2: two nights are spare."""
    advice = advise(*_under_way(History(1)))
    assert (advice.summit_day, advice.last_summit_day) == (2, 4)
    assert advise(*_under_way(History(2))).summit_day is None


def test_changes_are_told_by_day_and_person():
    """Two sets that stay at c1 are two fewer on the way home; what is over is no change."""
    problem, before = _under_way(History(1))
    _, after = _under_way(History(1), ({"m1": "g1/meal*3"}, {}, {"m1": "g1/meal"}, {}))
    changed = changed_loads(problem, before, after)
    assert [(c.day, c.step, c.person_id, c.more, c.fewer) for c in changed] == [
        (2, 2, "m1", (("g1/meal", 1),), ()),
        (3, 1, "m1", (), (("g1/meal", 2),)),
    ]
    assert not any(change.new for change in changed)
    assert changed_loads(problem, before, before) == ()


def test_a_trip_that_there_was_not_is_new():
    """With the followed plan without its way home, that way is new to its people."""
    problem, plan = _under_way(History(1))
    short = Plan(trips=plan.trips[:-1], stock=())
    (change,) = changed_loads(problem, short, plan)
    assert (change.new, change.more) == (True, (("g1/meal", 2),))
    assert isinstance(plan.trips[0], TripLoads)
