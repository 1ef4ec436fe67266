"""Kills and freezes of the service and its children: `run.sh jobs [--long]` in this folder."""

import os
import signal
import sys
import tempfile
import threading
import time
from collections.abc import Callable
from pathlib import Path

from service.storage.leases import MOST_CRASHES
from tests.reliability.trial import LEASE_SECONDS, Tally, Trial, second_service
from tests.service.processes import until


def kill_service(
    trial: Trial, *, kills: int, longest_seconds: float, within_seconds: float
) -> Tally:
    """Kill the service at random moments while plans come in and run.

    Every second time it is killed as it starts, or soon after; the other times plans run by then.
    """
    stop = threading.Event()
    asking = threading.Thread(target=trial.ask_on, args=(stop, 4.0))
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


def sound_trials(*, is_long: bool) -> dict[str, Callable[[Trial], Tally]]:
    """What a sound service must stand, in the short or the long form."""
    without_end = 3600.0
    return {
        "kills of the service": lambda t: kill_service(
            t,
            kills=40 if is_long else 10,
            longest_seconds=16 if is_long else 4,
            within_seconds=without_end if is_long else 90,
        ),
        "kills of children": lambda t: kill_children(
            t, kills=40 if is_long else 4, within_seconds=without_end if is_long else 40
        ),
        "freezes past the lease": lambda t: freeze_service(t, freezes=10 if is_long else 1),
    }


CONTROLS: dict[str, Callable[[Trial], Tally]] = {
    "early_answer": kill_once,
    "no_rescue": kill_once,
    "no_fencing": lambda t: freeze_service(t, freezes=1),
}


def main() -> None:
    """Run every trial and every control; the exit status says whether all went as it must.

    `--only NAME` runs the one trial or control of that name.
    """
    given = sys.argv[1:]
    only = given[given.index("--only") + 1] if "--only" in given else None
    all_well = True
    for name, trial in sound_trials(is_long="--long" in given).items():
        if only in (None, name):
            with tempfile.TemporaryDirectory() as folder:
                tally = trial(Trial(Path(folder)))
            all_well &= tally.proves()
            print(f"{name}: {tally}: {'ok' if tally.proves() else 'BROKEN'}", flush=True)
    for planted, trial in CONTROLS.items():
        if only in (None, planted):
            with tempfile.TemporaryDirectory() as folder:
                tally = trial(Trial(Path(folder), planted=planted))
            all_well &= not tally.is_clean()
            caught = "NOT CAUGHT" if tally.is_clean() else "caught"
            print(f"planted fault {planted}: {tally}: {caught}", flush=True)
    sys.exit(not all_well)


if __name__ == "__main__":
    main()
