"""The legs that sleds are hauled along."""

from solver.checker.queries.sled_legs import read_sled_legs
from solver.problem import Direction, Sled
from tests.checker.replaying import facts_of

SLED = Sled("pulk", "m1", tare_g=5_000, mass_limit_g=50_000, volume_ml=10**6)


def test_a_hauled_leg_is_told_with_its_directions():
    """Up and down the first leg; the second is no sled leg."""
    facts = facts_of("strip-c1-c2 c2-c1-strip", sleds=(SLED,), sled_leg_factors=(100, 100))
    ((leg, ways),) = read_sled_legs(facts)
    assert (leg.leg_id, ways) == ("strip-c1", {Direction.OUTBOUND, Direction.HOMEWARD})


def test_without_a_sled_no_leg_is_hauled_along():
    """A sled leg that nobody hauls on is left out."""
    assert read_sled_legs(facts_of(sled_leg_factors=(100, 100))) == []
