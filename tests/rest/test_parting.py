"""People who leave or join on the way, in the problem and in the plan of the rest."""

from dataclasses import replace

import pytest

from solver.outcome import Solved
from solver.pipeline import plan
from solver.problem import Change, History, read_timeline
from solver.problem.presence import ALL_THE_TIME, Presence
from solver.rest.parting import less, met, place_of, with_joined, without_people
from solver.rest.planning import plan_rest
from solver.rest.way_down import caps_with_litter, days_down, haul
from tests.rest.under_way import QUICK
from tests.rules.worlds import EVERY_NIGHT, item, person, plan_of, world

DAYS = "strip-c1 c1 c1-strip"
BAG = item("bag", EVERY_NIGHT, owner_id="m2")


def _two(**more):
    people = (person("m1"), person("m2"))
    return replace(world(DAYS, people=people, gear=(BAG,)), history=History(1, **more))


def test_presence_is_by_day_and_night():
    """Who is met on the evening of day 1 sleeps there that night and travels from day 2."""
    assert ALL_THE_TIME.travels_on(1)
    came = Presence(first_day=2, first_night=1)
    assert (came.travels_on(1), came.travels_on(2), came.sleeps_on(1)) == (False, True, True)
    went = Presence(last_day=1, last_night=0)
    assert (went.travels_on(1), went.travels_on(2), went.sleeps_on(1)) == (True, False, False)


def test_who_has_left_is_on_no_trip_and_at_no_table():
    """From the moment on one person is left, with no gear of the other."""
    problem = without_people(_two(), {"m2"}, "c1")
    timeline = read_timeline(problem)
    assert [trip.person_ids for trip in timeline.trips] == [("m1", "m2"), ("m1",)]
    assert [night.sleepers_at("c1") for night in timeline.nights] == [("m1",), ("m1",)]
    assert timeline.nights[0].place_of("m2") == "c1"
    assert problem.gear == ()
    assert [p.person_id for p in problem.members("g1")] == ["m1"]
    assert [p.person_id for p in problem.eaters("g1", 1)] == ["m1"]
    assert problem.person("m2").presence.last_day == 1


def test_who_has_left_ate_before():
    """In the morning after the night both have eaten."""
    problem = without_people(_two(after_night=True), {"m2"}, "c1")
    assert len(problem.eaters("g1", 1)) == 2
    assert len(problem.eaters("g1", 2)) == 1


@pytest.mark.parametrize(("after_night", "bags"), [(False, 2), (True, 1)])
def test_the_rest_is_planned_for_those_who_are_left(after_night, bags):
    """One person eats one set a night from the moment on; the others come home."""
    whole = world(DAYS, people=(person("m1"), person("m2")))
    first = plan(whole, QUICK)
    assert isinstance(first, Solved)
    under_way = replace(whole, history=History(1, after_night=after_night))
    rest = plan_rest(without_people(under_way, {"m2"}, "c1"), first.plan, QUICK)
    assert isinstance(rest.outcome, Solved)
    assert not rest.is_unchanged
    home = rest.outcome.plan.trips[-1]
    assert [load.person_id for load in home.loads] == ["m1"]
    carried = sum(s.count for load in home.loads for s in load.pack if s.unit_id == "g1/meal")
    assert carried == bags


def test_who_joins_brings_their_own_gear_and_eats():
    """Their bag stands where they join, and two eat from that night on."""
    joined = with_joined(_two(), "m2", "c1", {"g1/meal": 3})
    assert joined.history is not None
    assert joined.history.changes == (
        Change("strip", "m2/bag", -1),
        Change("c1", "m2/bag", 1),
        Change("c1", "g1/meal", 3),
    )
    timeline = read_timeline(joined)
    assert [trip.person_ids for trip in timeline.trips] == [("m1",), ("m1", "m2")]
    assert len(joined.eaters("g1", 1)) == 2
    assert met(joined, "m2", "c1").roster == joined.roster


def test_a_plan_for_those_who_were_met():
    """Three sets of the guest's and one of the host's feed both for two nights."""
    alone = world(DAYS, people=(person("m1"),))
    first = plan_of(alone, {"m1": "g1/meal*2"}, {"m1": ""}, stock={(0, "strip"): "g1/meal*2"})
    both = replace(alone, roster=(person("m1"), person("m2")), history=History(1))
    fed = plan_rest(with_joined(both, "m2", "c1", {"g1/meal": 2}), first, QUICK)
    assert isinstance(fed.outcome, Solved)
    hungry = plan_rest(with_joined(both, "m2", "c1", {"g1/meal": 1}), first, QUICK)
    assert not isinstance(hungry.outcome, Solved)


def test_without_a_history_nothing_changes():
    """Nobody leaves or joins an expedition that has not begun."""
    problem = replace(_two(), history=None)
    assert without_people(problem, {"m2"}, "c1") == problem
    assert with_joined(problem, "m2", "c1", {}) == problem
    assert met(problem, "m2", "c1") == problem
    assert less(problem, {("c1", "x"): 1}) == problem


def test_where_somebody_is_at_the_moment():
    """After the trips of day 1 at c1."""
    assert place_of(_two(), "m1") == "c1"


@pytest.mark.parametrize(
    ("place", "ways"),
    [
        ("c2", [("c2", "c1"), ("c1", "strip")]),
        ("c1", [("c1", "strip")]),
        ("c3", [("c3", "c2", "c1", "strip")]),
    ],
)
def test_the_way_down_is_the_plans_own(place, ways):
    """From c2 by c1, where the plan sleeps, from c1 home in a day; from elsewhere the whole way."""
    problem = world("strip-c1 c1-c2 c2-c1 c1-strip")
    problem = replace(problem, route=world("strip-c1-c2-c3").route)
    followed = plan_of(problem, *[{"m1": ""}] * 4, stock={(0, "strip"): "g1/meal*3"})
    found = days_down(problem, followed, "m1", place, ("r1",))
    assert [day.visits[0].places for day in found] == ways


def test_hauling_is_shared_evenly_within_everybodys_cap_on_the_leg():
    """90 kg by two with 40 kg each is too much, by three it goes; a steep leg halves the caps."""
    pull = person("m1", sled_g=40_000)
    flat = world(DAYS, sled_leg_factors=(100, 100))
    by_two = haul(flat, [pull, pull], 90_000, "c1")
    assert (by_two.share_g, len(by_two.cannot), by_two.more_haulers) == (45_000, 1, 1)
    assert haul(flat, [pull] * 3, 90_000, "c1").cannot == ()
    steep = world(DAYS, sled_leg_factors=(100, 50))
    assert haul(steep, [pull] * 3, 90_000, "c1").more_haulers == 2
    assert haul(world(DAYS), [pull] * 9, 90_000, "c1").cannot == (
        "c1 to strip: no sled can go there",
    )


def test_who_pulls_a_litter_has_less_room_in_the_pack():
    """A total cap of 60 kg less 40 kg leaves 20 kg on sled legs; without one the pack's own."""
    strong = person("m1", pack_g=25_000, sled_g=50_000, total_g=60_000)
    caps = caps_with_litter(strong, 40_000).caps
    assert {cap for _, _, cap in caps.pack_by_leg} == {20_000}
    assert caps_with_litter(person("m1"), 40_000) == person("m1")
