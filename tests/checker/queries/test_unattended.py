"""What a plan leaves standing at night where nobody sleeps."""

from solver.checker.ledger.facts import read_facts
from solver.checker.ledger.replay import replay
from solver.checker.queries.unattended import Cache, read_caches
from tests.rules.cache_worlds import cache_world, fetching


def test_a_cache_is_told_for_each_night_with_its_units():
    """Two meals left at c1 stand alone on the nights of days 1 and 2, and are fetched then."""
    problem = cache_world()
    caches = read_caches(replay(read_facts(problem), fetching(problem)))
    assert [c for c in caches if c.place_id == "c1"] == [
        Cache(1, "c1", {"g1/meal": 2}),
        Cache(2, "c1", {"g1/meal": 2}),
    ]


def test_what_stands_where_people_sleep_is_no_cache():
    """Neither the start place nor a camp with people is told."""
    problem = cache_world()
    caches = read_caches(replay(read_facts(problem), fetching(problem)))
    assert {cache.place_id for cache in caches} == {"c1"}
