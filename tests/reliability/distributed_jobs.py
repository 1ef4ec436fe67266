"""Kills and freezes of the distributed engine, for the proof `jobs`."""

import os
import signal
import threading
import time

from service.storage.leases import MOST_CRASHES
from tests.reliability.distributed_trial import LEASE_SECONDS, DistributedTrial
from tests.reliability.trial import Tally
from tests.service.processes import until


def kill_any(
    trial: DistributedTrial,
    *,
    kills: int,
    longest_seconds: float = 4.0,
    solve_seconds: float = 4.0,
) -> Tally:
    """Kill workers, the API and solving children at random moments while plans come in and run."""
    trial.start()
    trial.await_ready()
    stop = threading.Event()
    asking = threading.Thread(target=trial.ask_on, args=(stop, solve_seconds))
    asking.start()
    killed = 0
    while killed < kills:
        time.sleep(trial.chance.uniform(0.3, longest_seconds))
        kind = trial.chance.choice(("worker", "worker", "child", "api"))
        if kind == "child":
            children = trial.children()
            if not children or trial.most_crashes() >= MOST_CRASHES - 1:
                continue
            os.kill(trial.chance.choice(children), signal.SIGKILL)
        else:
            # A worker that solves, if there is one: another has nothing to lose.
            workers = trial.busy_workers() or trial.workers()
            trial.kill_one("api" if kind == "api" else trial.chance.choice(workers))
        killed += 1
    stop.set()
    asking.join()
    return _ended(trial, kills=killed)


def freeze_workers(trial: DistributedTrial, *, freezes: int) -> Tally:
    """Freeze a worker that solves, beyond its lease, while the other one takes its plan."""
    trial.start()
    trial.await_ready()
    taken_over = 0
    for _ in range(freezes):
        trial.ask(LEASE_SECONDS + 2)
        until(lambda: trial.busy_workers() != [], seconds=120)
        newest = trial.plan_ids[-1:]
        trial.freeze_one(trial.busy_workers()[0], LEASE_SECONDS + 3)
        taken_over += trial.starts(newest) > 1
    # The plan may be final by now, and the one that took it over has still to bring what it has.
    time.sleep(LEASE_SECONDS + 4)
    tally = _ended(trial, kills=taken_over)
    tally.least = max(1, freezes // 2)
    return tally


def kill_accepted(trial: DistributedTrial) -> Tally:
    """Kill the API right after it accepted three plans, and then a worker that solves one."""
    trial.start()
    trial.await_ready()
    for _ in range(3):
        trial.ask(3)
    trial.kill_one("api")
    for _ in range(100):
        busy = trial.busy_workers()
        if busy:
            trial.kill_one(busy[0])
            break
        time.sleep(0.1)
    trial.await_ready()
    tally = trial.account(kills=1, seconds=LEASE_SECONDS + 25)
    trial.kill()
    return tally


def kill_postgres(trial: DistributedTrial, *, kills: int) -> Tally:
    """Kill PostgreSQL while plans come in and run, and start it again after up to 8 s."""
    trial.start()
    trial.await_ready()
    stop = threading.Event()
    asking = threading.Thread(target=trial.ask_on, args=(stop, 4.0))
    asking.start()
    misled = 0
    for _ in range(kills):
        time.sleep(trial.chance.uniform(1, 8))
        misled += not trial.kill_postgres(trial.chance.uniform(0, 8))
    stop.set()
    asking.join()
    tally = _ended(trial, kills=kills)
    tally.misled = misled
    return tally


def _ended(trial: DistributedTrial, *, kills: int) -> Tally:
    """Wait for all plans to be final, and count."""
    trial.await_ready()
    tally = trial.account(kills=kills, seconds=120 + 4 * len(trial.plan_ids))
    trial.kill()
    return tally
