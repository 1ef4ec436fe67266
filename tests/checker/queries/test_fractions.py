"""Load fractions of people and days."""

from dataclasses import replace

from solver.checker.queries.fractions import (
    day_fractions,
    largest_fractions,
    load_fraction,
    sled_cap_g,
    whole_percent,
)
from solver.problem import Sled
from tests.checker.replaying import replay_of
from tests.rules.worlds import item, person, world

PLAIN = world()
SLED = Sled("pulk", "m1", tare_g=5_000, mass_limit_g=50_000, volume_ml=10**6)


def _replayed(loads, **caps):
    problem = world(
        "strip-c1-strip",
        people=(person("m1", sled_g=20_000, **caps),),
        gear=(item("rope", mass_g=5_000), item("tent", mass_g=3_000)),
        sleds=(SLED,),
        sled_leg_factors=(50, 100),
    )
    return replay_of(problem, *loads)


def test_the_largest_share_of_pack_and_sled_counts():
    """5 kg of 20 kg in the pack is 25 %; 8 kg of half of 20 kg on the sled is 80 %."""
    replayed = _replayed([{"m1": "rope|tent"}, {}])
    record = replayed.records[0]
    (burden,) = record.burdens
    assert sled_cap_g(burden, record.trip) == 10_000
    assert load_fraction(PLAIN, burden, record.trip) == 8_000


def test_the_total_cap_counts_with_a_sled():
    """13 kg of a total cap of 13 kg is all of it, and more than the sled's share."""
    (burden,) = (record := _replayed([{"m1": "rope|tent"}, {}], total_g=13_000).records[0]).burdens
    assert load_fraction(PLAIN, burden, record.trip) == 10_000


def test_a_waived_total_cap_does_not_count():
    """With the total cap only a caution, 8 kg of the sled cap of 10 kg is what counts."""
    rules = replace(PLAIN.rules, waived=(("total_cap_held", "tried before"),))
    (burden,) = (record := _replayed([{"m1": "rope|tent"}, {}], total_g=13_000).records[0]).burdens
    assert load_fraction(replace(PLAIN, rules=rules), burden, record.trip) == 8_000


def test_days_have_the_largest_of_their_trips():
    """Down without a load the empty sled of 5 kg is a quarter of the cap of 20 kg."""
    replayed = _replayed([{"m1": "rope|tent"}, {}])
    assert largest_fractions(replayed) == (8_000, 2_500)
    assert day_fractions(replayed) == {1: {"m1": 8_000}}


def test_whole_per_cent_are_rounded_down():
    """99.99 % is told as 99 %."""
    assert whole_percent(9_999) == 99
