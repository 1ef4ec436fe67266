"""The night of the evening on which a party divides is spent and eaten by all of them together."""

from dataclasses import replace
from functools import cache

from solver.outcome import Solved
from solver.pipeline import plan
from solver.problem import Change, History, Purpose, read_timeline
from solver.rest.evacuation import evacuate
from solver.rest.hurt import How, Hurt
from solver.rest.together import after_their_last_night
from tests.rest.under_way import QUICK
from tests.rules.evacuation_worlds import SIX, camp, kit
from tests.rules.worlds import MEAL, glacier

DAYS = "strip-c1 c1 c1 c1-strip"
STORM = replace(MEAL, set_id="storm", storm=True)


@cache
def _evening(count: int = 3):
    """Six people at c1 in the evening of day 1 with two tents of `count` places."""
    problem = camp(SIX, gear=kit(places=count), days=DAYS)
    problem = replace(problem, night_sets=(*problem.night_sets, STORM))
    first = plan(problem, QUICK)
    assert isinstance(first, Solved)
    return replace(problem, history=History(1)), first.plan


def _lost(unit_id: str, count: int):
    problem, followed = _evening()
    change = Change("c1", unit_id, -count)
    return replace(problem, history=History(1, changes=(change,))), followed


def test_all_six_sleep_and_eat_that_night_in_both_problems():
    """Nobody has gone before the morning: six sleep there, and the night is over for both."""
    problem, followed = _evening()
    found, stay = evacuate(problem, followed, Hurt("m1", How.WALKS), QUICK)
    assert found.down is not None
    assert stay is not None
    for rest in (found.down, stay):
        [tonight, *later] = read_timeline(rest.problem).nights
        assert len(tonight.sleepers_at("c1")) == 6
        assert {len(night.sleepers_at("c1")) for night in later} <= {0, 3}
        assert rest.problem.history is not None
        assert [one.nights for one in rest.problem.history.chain] == [0, 1]
        assert rest.is_solved


def test_a_morning_stays_as_it_is():
    """The night is over already."""
    problem, followed = _evening()
    morning = replace(problem, history=History(1, after_night=True))
    assert after_their_last_night(morning, followed) is morning


def test_what_was_counted_in_the_evening_comes_before_the_night():
    """Bags that were lost are no more eaten, and the lost ones stay in the first count."""
    problem, followed = _lost("g1/meal", 2)
    later = after_their_last_night(problem, followed).history
    assert later is not None
    assert later.after_night
    assert later.changes == ()
    assert later.before == problem.history


def test_where_a_tent_is_lost_the_night_is_still_asked():
    """The tent that is left has room for three of six: no rule is passed over."""
    problem, followed = _lost(Purpose.SHELTER.value, 1)
    problem = glacier(problem, "shelter_for_all")
    assert after_their_last_night(problem, followed) is problem


def test_where_all_food_is_lost_the_night_is_still_asked():
    """Nobody can eat tonight, so the night is not taken as spent."""
    problem, followed = _lost("g1/meal", 18)
    assert after_their_last_night(problem, followed) is problem
