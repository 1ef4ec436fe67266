"""The allowed trips of each cargo leave a best plan, also where reserves are let go of early."""

from dataclasses import replace

import pytest

from solver.outcome import Solved
from solver.pipeline import plan
from solver.problem import (
    Calendar,
    Caps,
    CookGroup,
    Day,
    Direction,
    Item,
    Leg,
    LegMode,
    Need,
    NeedKind,
    NightSet,
    Person,
    Place,
    Problem,
    Reserve,
    ReserveKind,
    Route,
    Visit,
)
from tests.pipeline.exhaustive import least_peak

TENT = Item("tent", 9000, 0, Need(NeedKind.EVERY_NIGHT))
AHEAD = Item("ahead", 8000, 0, Need(NeedKind.AT_PLACE, up_to="c", may_go_ahead=True))


def one_person(up_g: int, down_g: int) -> Problem:
    """Two nights at b with a storm bag, one at c; on the way there the road is seen once more.

    From b to c a pack may weigh `up_g`, and on every way down `down_g`. Tent and what goes
    ahead fill the last way down, so the storm bag has to come down on day 3 already, when
    nobody sleeps at b any more but c still wants a bag like it.
    """
    caps = Caps(
        pack_g=down_g,
        pack_by_leg=(
            (LegMode.SLED, Direction.OUTBOUND, 60_000),
            (LegMode.PACK, Direction.OUTBOUND, up_g),
        ),
    )
    days = ("ab", "bcb", "babc", "cba")
    return Problem(
        route=Route(
            tuple(Place(place, 1000) for place in "abc"),
            (Leg("ab", "a", "b", LegMode.SLED), Leg("bc", "b", "c", LegMode.PACK)),
        ),
        calendar=Calendar(tuple(Day((Visit(("r",), tuple(day)),)) for day in days)),
        roster=(Person("p1", caps, 100_000, "r", "g"),),
        cook_groups=(CookGroup("g", (("b", "set"), ("c", "set"))),),
        night_sets=(NightSet("set", "g", 1000, 0, 0, 0, 0),),
        gear=(TENT, AHEAD),
        reserves=(Reserve("b", "g", ReserveKind.STORM, 1, "set"),),
    )


def test_a_reserve_that_nobody_sleeps_by_may_go_home_while_places_beyond_want_food():
    """17,000 of 18,000 g come down at last, 9445 parts of the cap, since the bag is home then."""
    outcome = plan(one_person(up_g=10_000, down_g=18_000))
    assert isinstance(outcome, Solved)
    assert (outcome.goals[0].value, outcome.goals[0].proven) == (9445, True)


def test_a_trip_is_possible_where_only_an_early_return_of_the_reserve_makes_it_so():
    """Caps that the bag would break on the way up and on the last way down leave a plan."""
    assert isinstance(plan(one_person(up_g=9_500, down_g=17_500)), Solved)


@pytest.mark.parametrize("nights", [1, 2])
@pytest.mark.parametrize(
    ("kind", "place"),
    [
        (ReserveKind.STORM, "b"),
        (ReserveKind.STORM, "c"),
        (ReserveKind.DESCENT, "b"),
        (ReserveKind.DESCENT, "c"),
        (ReserveKind.BASE_WAIT, "a"),
    ],
)
def test_the_peak_is_that_of_exhaustive_search(nights, kind, place):
    """Whatever is held where, the least peak is what a search that may use every trip finds."""
    problem = replace(
        one_person(up_g=12_000, down_g=20_000),
        reserves=(Reserve(place, "g", kind, nights, "set"),),
    )
    outcome = plan(problem)
    assert isinstance(outcome, Solved)
    assert outcome.goals[0].value == least_peak(problem)
