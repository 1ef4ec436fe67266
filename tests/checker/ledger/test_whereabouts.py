"""Whereabouts: where everybody is after each moment, and what they carry to drink."""

from dataclasses import replace

from solver.checker.ledger.whereabouts import read_waters, read_whereabouts
from solver.problem import PlaceKind, read_timeline
from tests.rules.calendar_worlds import with_kind
from tests.rules.worlds import person, world

TEAMS = (person("m1", water_g=500), person("m2", rope_team_id="r2", water_g=700))


def test_people_are_where_their_last_trip_led():
    """Before any moment all are at the start; a team that stays in camp stays there."""
    problem = world("strip-c1|strip c1-strip|strip", people=TEAMS)
    after = read_whereabouts(problem, read_timeline(problem))
    assert after[0] == {"m1": "strip", "m2": "strip"}
    assert after[1] == {"m1": "c1", "m2": "strip"}
    assert after[-1] == {"m1": "strip", "m2": "strip"}


def test_a_summit_day_has_its_own_water_where_it_is_given():
    """Who visits the summit and gave an amount for it carries that, on that day only."""
    problem = with_kind(world("strip-c1 c1-c2-c1", people=TEAMS), "c2", PlaceKind.SUMMIT)
    first, second = problem.roster
    problem = replace(problem, roster=(replace(first, summit_water_g=2_000), second))
    assert read_waters(problem) == {
        ("m1", 1): 500,
        ("m1", 2): 2_000,
        ("m2", 1): 700,
        ("m2", 2): 700,
    }
