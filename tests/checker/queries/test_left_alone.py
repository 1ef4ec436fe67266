"""Places where things may stand while nobody is there."""

from solver.checker.ledger.facts import read_facts
from solver.checker.queries.left_alone import read_left_alone
from solver.problem import CacheSite
from tests.checker.replaying import facts_of
from tests.rules.cache_worlds import cache_world


def test_a_cache_is_meant_after_a_carry_from_below():
    """Carried to on day 1, passed on day 2 from below, fetched from above on day 3."""
    (cache,) = read_left_alone(read_facts(cache_world(CacheSite(poles=4))))
    assert cache.place.place_id == "c1"
    assert cache.nights == {1, 2, 3}
    assert cache.meant == {1, 2}
    assert cache.cache == CacheSite(poles=4)


def test_a_camp_that_is_left_for_good_is_not_alone():
    """Nobody comes back to c1 after the last night there but to pass it."""
    assert read_left_alone(facts_of("strip-c1 c1-strip")) == ()


def test_a_camp_that_is_slept_at_below_another_is_alone_and_meant_for_nothing():
    """While all are at c2, c1 is empty; without a reserve for the descent nothing is meant."""
    (camp,) = read_left_alone(facts_of("strip-c1 c1-c2 c2-c1-strip"))
    assert (camp.place.place_id, camp.nights, camp.meant) == ("c1", {2}, set())
    assert camp.cache == CacheSite()
