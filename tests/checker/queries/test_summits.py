"""Which days visit a summit."""

from solver.checker.ledger.facts import read_facts
from solver.checker.queries.summits import summit_days, summit_visits, summits
from solver.problem import PlaceKind
from tests.rules.calendar_worlds import with_kind
from tests.rules.worlds import person, world

TEAMS = (person("m1"), person("m2", rope_team_id="r2"))


def test_a_summit_day_has_those_who_go_there():
    """Of two teams only the one that visits the summit has a summit day."""
    problem = world("strip-c1 c1-c2-c1|c1 c1-strip", people=TEAMS)
    facts = read_facts(with_kind(problem, "c2", PlaceKind.SUMMIT))
    assert summits(facts) == ("c2",)
    assert summit_days(facts) == {2: frozenset({"m1"})}
    assert [(day, place) for day, place, _ in summit_visits(facts)] == [(2, "c2")]


def test_without_a_summit_no_day_visits_one():
    """A route of camps has no summit days."""
    facts = read_facts(world("strip-c1 c1-strip"))
    assert (summits(facts), summit_days(facts), list(summit_visits(facts))) == ((), {}, [])
