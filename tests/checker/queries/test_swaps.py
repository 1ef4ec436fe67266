"""Swaps: units that one person sets down and another takes up."""

from solver.checker.queries.swaps import swaps
from tests.checker.replaying import replay_of
from tests.rules.worlds import item, person, world

PEOPLE = (person("m1"), person("m2"), person("m3"))
GEAR = (item("rope", count=4), item("tarp"), item("own", owner_id="m1"))


def _swaps(*loads: dict[str, str], days: str = "strip-c1-strip"):
    problem = world(days, people=PEOPLE, gear=GEAR)
    return [
        (one.unit_id, one.units, one.weight, one.taken) for one in swaps(replay_of(problem, *loads))
    ]


def test_a_unit_that_changes_hands_at_a_stop_is_a_swap_of_the_most_weight():
    """One of two ropes goes from m1 to m2 for the way down; what is kept is no swap."""
    found = _swaps({"m1": "rope*2"}, {"m1": "rope", "m2": "rope"})
    assert found == [("rope", 1, 3, (("m2", 1),))]


def test_over_night_a_single_piece_weighs_more_than_one_of_several():
    """A tarp of which there is one counts 2, a rope of which there are four counts 1."""
    found = _swaps({"m1": "tarp rope"}, {"m2": "tarp rope"}, days="strip-c1 c1-strip")
    assert sorted(found) == [("rope", 1, 1, (("m2", 1),)), ("tarp", 1, 2, (("m2", 1),))]


def test_more_or_fewer_of_the_same_are_no_swap():
    """m2 takes two further ropes up, or leaves two behind: nobody hands anything over."""
    assert _swaps({"m1": "rope"}, {"m1": "rope", "m2": "rope*2"}) == []
    assert _swaps({"m1": "rope", "m2": "rope*2"}, {"m1": "rope"}) == []


def test_of_those_who_gain_whoever_gains_most_takes_over_first():
    """m1 gives up one rope while m2 gains one and m3 two: one rope changed hands, to m3."""
    found = _swaps({"m1": "rope"}, {"m2": "rope", "m3": "rope*2"})
    assert found == [("rope", 1, 3, (("m3", 1),))]


def test_a_personal_item_of_every_trip_is_never_swapped():
    """Whoever carries it, its rule is another one."""
    assert _swaps({"m1": "own"}, {"m2": "own"}) == []
