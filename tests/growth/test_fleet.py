"""The simulation of a fleet agrees with what can be worked out by hand, and repeats itself."""

import pytest

from tests.growth.fleet import Costs, Fleet, simulate
from tests.growth.run import missed

FREE = Costs(claim=0, finish=0, renew=0, look=0, tell=0, second=0, between=0.0)


@pytest.mark.parametrize("workers", [1, 2, 100])
def test_an_idle_database_lets_every_worker_work(workers):
    """With work that costs the database nothing, workers solve side by side."""
    served = simulate(Fleet(workers), FREE, [2.0], seconds=200)
    assert served.plans == pytest.approx(workers * 200 / 2, rel=0.02)
    assert served.busy == 0


def test_a_database_serves_no_more_than_its_cores_can():
    """A claim of 0.1 s on one core gives ten plans a second, however many workers there are."""
    costs = Costs(claim=0.1, finish=0, renew=0, look=0, tell=0, second=0, between=0)
    served = simulate(Fleet(100, database_cores=1), costs, [1.0], seconds=100)
    assert served.plans == pytest.approx(1000, rel=0.02)
    assert served.busy == pytest.approx(1, rel=0.02)
    assert served.claim_p99() > 8


def test_renewals_that_wait_too_long_are_counted():
    """A database that does nothing but probes answers renewals later than a lease allows."""
    costs = Costs(claim=0.01, finish=0, renew=0.01, look=0, tell=0, second=0.5, between=0)
    served = simulate(Fleet(40, database_cores=1), costs, [60.0], seconds=120)
    assert served.late_renewals > 0
    assert simulate(Fleet(1), costs, [60.0], seconds=120).late_renewals == 0


def test_the_same_seed_gives_the_same_fleet():
    """Two runs agree in every figure, and another seed differs."""
    runs = [simulate(Fleet(3), FREE, [1.0, 5.0], seconds=60, seed=seed) for seed in (1, 1, 2)]
    assert runs[0] == runs[1]
    assert runs[0] != runs[2]


@pytest.mark.parametrize(
    ("slow", "ratio", "count"),
    [
        ([], 1.0, 0),
        (["failed plans"], 1.0, 1),
        ([], 1.5, 1),
        ([], float("nan"), 1),
        (["a"], 0.1, 2),
    ],
)
def test_the_command_says_which_promise_is_not_kept(slow, ratio, count):
    """A slow page and workers that are not as simulated are misses, and so is no measurement."""
    assert len(missed(slow, ratio)) == count
