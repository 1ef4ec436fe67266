"""Who sleeps where, and what is left alone, each read from a plan that was written by hand."""

import copy

from service.reports.paper.nights import LeftAlone, left_alone, people_of, sleepers
from service.reports.paper.sheet_lines import Sheet
from service.reports.paper.things import Things, night_sets
from tests.service.reports.paper.two_days import OUTCOME, PLAN, load, trip, unit


def used(day: int, place: str) -> dict:
    """A kitchen that cooks at a place on the night of a day."""
    return PLAN["used"][0] | {"day": day, "place": place}


def stands(day: int, place: str, *units: dict) -> dict:
    """The stock of a place after a night."""
    return {"day": day, "place": place, "cook_groups": [], "units": list(units)}


def test_everybody_sleeps_where_their_last_trip_ends():
    """Ann is at the camp, bob back at the road; the night before bob had not left yet."""
    trips = [
        trip(1, 1, ("road", "camp"), load("ann", unit("stove"))),
        trip(2, 1, ("road", "cache"), load("bob", unit("pot"))),
        trip(2, 2, ("cache", "road"), load("bob", unit("pot"))),
    ]
    made = {"trips": trips, "used": [used(d, p) for d in (1, 2) for p in ("camp", "road")]}
    assert people_of(made) == ("ann", "bob")
    assert sleepers(made, 1) == {"camp": ("ann",), "road": ("bob",)}
    assert sleepers(made, 2) == {"camp": ("ann",), "road": ("bob",)}
    assert sleepers(made, 3) == {}


def test_a_place_is_alone_where_nobody_sleeps_and_remembers_since_when():
    """The cache is the same on two nights, then has less; the camp is not alone."""
    days = [{"day": day, "places": {"rope-1": ["road", "camp"]}} for day in (1, 2, 3)]
    stock = [
        stands(1, "cache", unit("stove"), unit("all/low", 3)),
        stands(1, "camp", unit("pot")),
        stands(2, "cache", unit("stove"), unit("all/low", 3)),
        stands(3, "cache", unit("stove")),
    ]
    made = {"days": days, "stock": stock, "used": [], "trips": []}
    first, second, third = left_alone(made)
    assert first == LeftAlone(1, "cache", {"stove": 1, "all/low": 3}, 1)
    assert (second.since, second.is_new, third.since, third.is_new) == (1, False, 3, True)


def test_a_cache_that_somebody_slept_at_begins_anew():
    """Nobody, somebody, nobody at the hut: what is left the second time is since then."""
    ends = {1: "road", 2: "hut", 3: "road"}
    days = [{"day": d, "places": {"rope-1": ["road", end]}} for d, end in ends.items()]
    stock = [stands(day, "hut", unit("stove")) for day in ends]
    made = {"days": days, "stock": stock, "used": [], "trips": []}
    assert [(one.day, one.since) for one in left_alone(made)] == [(1, 1), (3, 3)]


def test_what_is_left_names_whose_it_is():
    """What belongs to all comes first, then each person's own without their name again."""
    one = LeftAlone(1, "cache", {"ann/bag": 1, "stove": 1, "all/low": 3}, 1)
    assert list(one.parts(Things(PLAN), str.title)) == ["stove; 3 x night set low", "of Ann: bag"]


def test_one_night_set_is_one():
    """A person alone in a kitchen eats one night set."""
    assert (night_sets(1), night_sets(3)) == ("1 night set", "3 night sets")


def test_the_sheet_has_the_night_in_lines():
    """Who sleeps where comes first with what all share, then the kitchen, then what is left."""
    outcome = copy.deepcopy(OUTCOME)
    made = outcome["plan"]
    made["days"] = [{"day": day, "places": {"rope-1": ["road", "camp"]}} for day in (1, 2)]
    left = [unit("ann/bag"), unit("all/low")]
    made["stock"] += [stands(1, "cache", *left), stands(2, "cache", *left)]
    made["stock"].append(stands(2, "road", unit("trash/1")))
    assert list(Sheet(outcome).night(2)) == [
        "  Sleep at camp: everybody",
        "    stove: stove, brought today by bob",
        "    pot: pot, brought today by bob",
        "    shelter: none here",
        "  Kitchen tonight at camp, cook group all: 2 night sets, 0.30 L of fuel",
        "    food: 2 x night set low, brought today by bob",
        "    fuel: can, open, brought today by ann",
        "  Left alone at road",
        "    trash sack",
        "  Left alone still: cache as on day 1",
    ]
    assert list(Sheet(outcome).night(1)) == [
        "  Left alone at cache",
        "    night set low",
        "    of ann: bag",
    ]
