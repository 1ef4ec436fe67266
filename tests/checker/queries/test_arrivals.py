"""Nights on which a cook group that burns fuel begins a stay."""

from solver.checker.queries.arrivals import arrivals
from tests.checker.replaying import burning, replay_of


def test_only_the_first_night_of_a_stay_is_an_arrival():
    """Of two nights at c1 the first counts, with the content of each can there before it."""
    problem = burning(100, content_ml=150, days="strip-c1 c1 c1-strip")
    (arrival,) = arrivals(replay_of(problem, {"m1": "g1/meal*2 g1/can*2"}, {}))
    assert (arrival.meal.day, arrival.meal.place_id) == (1, "c1")
    assert arrival.containers_ml == (150, 150)
    assert arrival.words == "cook group g1 on the night of day 1 at c1"
    assert arrival.where == (("day", 1), ("place", "c1"), ("cook_group", "g1"))


def test_a_set_that_burns_nothing_has_no_arrival():
    """Without fuel to burn nobody asks for containers."""
    assert list(arrivals(replay_of(burning(0), {"m1": "g1/meal"}, {}))) == []
