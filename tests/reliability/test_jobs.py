"""Forty kills of each engine, closer together than those of `run.sh jobs`: nothing is lost."""

from pathlib import Path

import pytest

from tests.reliability.distributed_jobs import kill_any
from tests.reliability.distributed_trial import DistributedTrial
from tests.reliability.jobs import kill_service
from tests.reliability.trial import Tally, Trial
from tests.service.postgres import programs

pytestmark = pytest.mark.slow
KILLS = 40


def test_forty_kills_of_the_service_lose_and_double_nothing(tmp_path: Path):
    """Every second one hits the service as it starts; plans come in all the while."""
    tally = kill_service(
        Trial(tmp_path), kills=KILLS, longest_seconds=0.8, within_seconds=600, solve_seconds=1.0
    )
    assert tally.kills == KILLS
    assert tally.proves(), str(tally)


@pytest.mark.skipif(programs() is None, reason="PostgreSQL is not installed")
def test_forty_kills_of_workers_api_and_children_lose_and_double_nothing(tmp_path: Path):
    """Whatever was killed is started again, and every plan is final once."""
    trial = DistributedTrial(tmp_path)
    tally = kill_any(trial, kills=KILLS, longest_seconds=0.8, solve_seconds=1.0)
    assert tally.kills == KILLS
    assert tally.proves(), str(tally)


def test_a_proof_needs_kills_and_refusals_that_mislead_nobody():
    """Nothing lost is no proof where too little was tried, or an outage was answered wrongly."""
    assert Tally(kills=5, accepted=3, least=5).proves()
    assert not Tally(kills=4, accepted=3, least=5).proves()
    assert not Tally(kills=5, accepted=0).proves()
    assert not Tally(kills=5, accepted=3, misled=1).proves()
