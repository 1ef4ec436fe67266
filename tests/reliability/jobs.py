"""Kills and freezes of service, workers, children and database: `run.sh jobs [--short|--long]`."""

import os
import signal
import sys
import tempfile
import threading
import time
from collections.abc import Callable
from pathlib import Path

from service.settings import Settings
from service.storage.leases import MOST_CRASHES
from tests.reliability.distributed_jobs import (
    freeze_workers,
    kill_accepted,
    kill_any,
    kill_postgres,
)
from tests.reliability.distributed_trial import DistributedTrial
from tests.reliability.trial import LEASE_SECONDS, Tally, Trial, second_service
from tests.service.postgres import programs
from tests.service.processes import until

AGAIN_SECONDS = 15.0
"""The promise: what ran when the service was killed runs again within this time [s]."""


def kill_service(
    trial: Trial,
    *,
    kills: int,
    longest_seconds: float,
    within_seconds: float,
    solve_seconds: float = 4.0,
) -> Tally:
    """Kill the service at random moments while plans come in and run, each at most so long [s].

    Every second time it is killed as it starts, or soon after; the other times plans run by then.
    """
    stop = threading.Event()
    asking = threading.Thread(target=trial.ask_on, args=(stop, solve_seconds))
    asking.start()
    ends_at = time.monotonic() + within_seconds
    killed = 0
    while killed < kills and time.monotonic() < ends_at:
        trial.start()
        if killed % 2:
            trial.await_ready()
        time.sleep(trial.chance.uniform(0.3, longest_seconds))
        trial.kill()
        killed += 1
    stop.set()
    asking.join()
    trial.start()
    trial.await_ready()
    tally = trial.account(kills=killed, seconds=60 + 4 * len(trial.plan_ids))
    trial.kill()
    return tally


def kill_children(trial: Trial, *, kills: int, within_seconds: float) -> Tally:
    """Kill solving children, none of the same plan more than twice: the third fails its plan."""
    trial.start()
    trial.await_ready()
    for _ in range(kills):
        trial.ask(1.5)
    killed = 0
    ends_at = time.monotonic() + within_seconds
    while killed < kills and time.monotonic() < ends_at:
        time.sleep(trial.chance.uniform(0.2, 1.0))
        children = trial.children()
        if children and trial.most_crashes() < MOST_CRASHES - 1:
            os.kill(trial.chance.choice(children), signal.SIGKILL)
            killed += 1
            # So many plans wait at any time that there is a child to kill.
            trial.ask(1.5)
            time.sleep(1)
        elif trial.open() == 0:
            # Those that waited have ended while a plan that was killed twice ran.
            trial.ask(1.5)
    tally = trial.account(kills=killed, seconds=60 + 4 * len(trial.plan_ids))
    trial.kill()
    return tally


def freeze_service(trial: Trial, *, freezes: int) -> Tally:
    """Freeze the service beyond its lease while another process takes its plans.

    The other one is frozen until the service has them, so that it is the service's that it takes.
    When the service comes back its solves have ended, and the other one still works on them.
    """
    trial.start()
    trial.await_ready()
    other = second_service(trial)
    taken_over = 0
    for _ in range(freezes):
        other.process.send_signal(signal.SIGSTOP)
        asked_before = len(trial.plan_ids)
        trial.ask(LEASE_SECONDS + 4)
        trial.ask(LEASE_SECONDS + 4)
        newest = trial.plan_ids[asked_before:]
        until(lambda names=newest: trial.states(names) == {"running"}, seconds=60)
        other.process.send_signal(signal.SIGCONT)
        trial.freeze(LEASE_SECONDS + 6)
        taken_over += trial.starts(newest) > len(newest)
        # The plans may be final by now, and the other one has still to bring what it has.
        time.sleep(LEASE_SECONDS + 6)
    tally = trial.account(kills=taken_over, seconds=120)
    tally.least = max(1, freezes // 2)
    other.process.kill()
    other.process.wait()
    trial.kill()
    return tally


def kill_once(trial: Trial) -> Tally:
    """Kill the service right after it accepted three plans, and start it again."""
    trial.start()
    trial.await_ready()
    for _ in range(3):
        trial.ask(3)
    trial.kill()
    trial.start()
    trial.await_ready()
    tally = trial.account(kills=1, seconds=LEASE_SECONDS + 25)
    trial.kill()
    return tally


def runs_again(trial: Trial) -> Tally:
    """Kill the service while a plan runs, with the usual lease, and see when it runs again.

    From the kill, so that the start of the service counts.
    """
    trial.environment["HAULWRIGHT_LEASE_SECONDS"] = str(Settings().lease_seconds)
    trial.start()
    trial.await_ready()
    trial.ask(20)
    until(lambda: trial.states(trial.plan_ids) == {"running"}, seconds=60)
    trial.kill()
    killed_at = time.monotonic()
    trial.start()
    try:
        until(lambda: trial.starts(trial.plan_ids) > 1, seconds=60)
    finally:
        trial.kill()
    taken = time.monotonic() - killed_at
    print(f"  running again {taken:.1f} s after the kill, promised {AGAIN_SECONDS:.0f}", flush=True)
    return Tally(kills=1, accepted=len(trial.plan_ids), stuck=int(taken > AGAIN_SECONDS))


def sound_trials(form: str) -> dict[str, Callable[[Trial], Tally]]:
    """What a sound service must stand, in the short, the usual or the long form."""
    kills, freezes, longest = {"short": (10, 1, 4), "usual": (40, 5, 16), "long": (200, 10, 16)}[
        form
    ]
    return {
        # The trial of two controls, which must catch the fault and not the machine.
        "one kill right after plans were accepted": kill_once,
        "a kill while a plan runs": runs_again,
        "kills of the service": lambda t: kill_service(
            t, kills=kills, longest_seconds=longest, within_seconds=7200
        ),
        "kills of children": lambda t: kill_children(
            t, kills=max(4, kills // 5), within_seconds=7200
        ),
        "freezes of the service past its lease": lambda t: freeze_service(t, freezes=freezes),
    }


def distributed_trials(form: str) -> dict[str, Callable[[DistributedTrial], Tally]]:
    """What the distributed engine must stand."""
    kills, freezes, outages = {"short": (10, 2, 1), "usual": (40, 45, 5), "long": (200, 50, 20)}[
        form
    ]
    return {
        # The trial of two controls, which must catch the fault and not the machine.
        "distributed: kills right after plans were accepted": kill_accepted,
        "distributed: kills of workers, API and children": lambda t: kill_any(t, kills=kills),
        "distributed: freezes of workers past the lease": lambda t: freeze_workers(
            t, freezes=freezes
        ),
        "distributed: kills of PostgreSQL": lambda t: kill_postgres(t, kills=outages),
    }


CONTROLS: dict[str, Callable[[Trial], Tally]] = {
    "early_answer": kill_once,
    "no_rescue": kill_once,
    "no_fencing": lambda t: freeze_service(t, freezes=1),
}
DISTRIBUTED_CONTROLS: dict[str, Callable[[DistributedTrial], Tally]] = {
    "early_answer": kill_accepted,
    "no_rescue": kill_accepted,
    "no_fencing": lambda t: freeze_workers(t, freezes=1),
}


def main() -> None:
    """Run every trial and every control; the exit status says whether all went as it must.

    `--only NAME` runs the one trial or control of that name. The usual form has forty kills for
    each engine, 0.3 to 16 s apart for the service, fifty freezes, and five kills of PostgreSQL.
    """
    given = sys.argv[1:]
    only = given[given.index("--only") + 1] if "--only" in given else None
    form = next((name for name in ("short", "long") if f"--{name}" in given), "usual")
    distributed = distributed_trials(form)
    controls = [(name, Trial, trial) for name, trial in CONTROLS.items()]
    if programs() is None:
        print("distributed: skipped, PostgreSQL is not installed", flush=True)
        distributed = {}
    else:
        controls += [(name, DistributedTrial, one) for name, one in DISTRIBUTED_CONTROLS.items()]
    known = {*sound_trials(form), *distributed, *CONTROLS}
    if only is not None and only not in known:
        sys.exit(f"There is no trial {only}. Known are: {', '.join(sorted(known))}.")
    all_well = True
    for kind, trials in ((Trial, sound_trials(form)), (DistributedTrial, distributed)):
        for name, trial in trials.items():
            if only in (None, name):
                with tempfile.TemporaryDirectory() as folder:
                    tally = trial(kind(Path(folder)))
                all_well &= tally.proves()
                print(f"{name}: {tally}: {'ok' if tally.proves() else 'BROKEN'}", flush=True)
    for planted, kind, trial in controls:
        if only in (None, planted):
            with tempfile.TemporaryDirectory() as folder:
                tally = trial(kind(Path(folder), planted=planted))
            all_well &= not tally.is_clean()
            caught = "NOT CAUGHT" if tally.is_clean() else "caught"
            engine = "distributed: " if kind is DistributedTrial else ""
            print(f"{engine}planted fault {planted}: {tally}: {caught}", flush=True)
    sys.exit(not all_well)


if __name__ == "__main__":
    main()
