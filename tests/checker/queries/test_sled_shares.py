"""The share of the sled in what a hauler moves."""

import pytest

from solver.checker.queries.sled_shares import share_findings
from solver.problem import Sled
from tests.checker.replaying import replay_of
from tests.rules.worlds import item, person, world

SLED = Sled("pulk", "m1", tare_g=2_000, mass_limit_g=50_000, volume_ml=10**6)


@pytest.mark.parametrize(
    ("band", "amounts"), [((40, 60), []), ((50, 60), []), ((51, 60), [1]), ((10, 40), [10])]
)
def test_a_share_of_half_is_held_to_its_band(band, amounts):
    """4 kg in the pack and 4 kg on the sled are 50 %, which the bounds themselves allow."""
    problem = world(
        people=(person(sled_g=20_000),),
        gear=(item("rope", mass_g=4_000), item("tent", mass_g=2_000)),
        sleds=(SLED,),
        sled_leg_factors=(100, 100),
    )
    record = replay_of(problem, {"m1": "rope|tent"}, {}).records[0]
    found = list(share_findings("rule", record, *band))
    assert [finding.amount for finding in found] == amounts
