"""Kills and freezes of the service and its children: `run.sh jobs [--long]` in this folder."""

import os
import signal
import sys
import tempfile
import threading
import time
from collections import Counter
from pathlib import Path

from tests.reliability.trial import LEASE_SECONDS, Tally, Trial, second_service


def kill_service(trial: Trial, *, kills: int, longest_seconds: float) -> Tally:
    """Kill the service at random moments while plans come in and run."""
    stop = threading.Event()
    asking = threading.Thread(target=trial.ask_on, args=(stop, 4.0))
    asking.start()
    for _ in range(kills):
        trial.start()
        time.sleep(trial.chance.uniform(0.3, longest_seconds))
        trial.kill()
    stop.set()
    asking.join()
    trial.start()
    trial.await_ready()
    tally = trial.account(kills=kills, seconds=60 + 4 * len(trial.plan_ids))
    trial.kill()
    return tally


def kill_children(trial: Trial, *, kills: int) -> Tally:
    """Kill solving children, none of the same plan more than twice."""
    trial.start()
    trial.await_ready()
    for _ in range(kills):
        trial.ask(1.5)
    killed: Counter[int] = Counter()
    for _ in range(kills):
        time.sleep(trial.chance.uniform(0.2, 1.0))
        children = [child for child in trial.children() if not killed[child]]
        if children and killed.total() < kills:
            victim = trial.chance.choice(children)
            killed[victim] += 1
            os.kill(victim, signal.SIGKILL)
            # Long enough for the next plan to be in its place.
            time.sleep(3)
    tally = trial.account(kills=killed.total(), seconds=60 + 4 * len(trial.plan_ids))
    trial.kill()
    return tally


def freeze_service(trial: Trial, *, freezes: int) -> Tally:
    """Freeze the service beyond its lease while another process takes its plans."""
    trial.start()
    trial.await_ready()
    other = second_service(trial)
    for _ in range(freezes):
        trial.ask(LEASE_SECONDS + 4)
        trial.ask(LEASE_SECONDS + 4)
        time.sleep(2)
        trial.freeze(LEASE_SECONDS + 6)
    tally = trial.account(kills=freezes, seconds=120)
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


def main() -> None:
    """Run every trial and every control; the exit status says whether all went as it must."""
    is_long = "--long" in sys.argv[1:]
    sound = {
        "kills of the service": lambda t: kill_service(
            t, kills=40 if is_long else 6, longest_seconds=16 if is_long else 8
        ),
        "kills of children": lambda t: kill_children(t, kills=40 if is_long else 4),
        "freezes past the lease": lambda t: freeze_service(t, freezes=10 if is_long else 1),
    }
    controls = {
        "early_answer": kill_once,
        "no_rescue": kill_once,
        "no_fencing": lambda t: freeze_service(t, freezes=1),
    }
    all_well = True
    for name, trial in sound.items():
        with tempfile.TemporaryDirectory() as folder:
            tally = trial(Trial(Path(folder)))
        all_well &= tally.is_clean()
        print(f"{name}: {tally}: {'ok' if tally.is_clean() else 'BROKEN'}", flush=True)
    for planted, trial in controls.items():
        with tempfile.TemporaryDirectory() as folder:
            tally = trial(Trial(Path(folder), planted=planted))
        all_well &= not tally.is_clean()
        caught = "NOT CAUGHT" if tally.is_clean() else "caught"
        print(f"planted fault {planted}: {tally}: {caught}", flush=True)
    sys.exit(not all_well)


if __name__ == "__main__":
    main()
