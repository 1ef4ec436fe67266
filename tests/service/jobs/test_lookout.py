"""What every process looks after: the storage, who waits, and what is kept no longer."""

import asyncio
import time

from service.errors import ServiceProblem
from service.jobs import lookout as lookout_module
from service.jobs.completions import Completions
from service.jobs.lookout import Lookout
from tests.service.processes import until


class Others:
    """A storage that works, or does not, and in which another process has finished a plan."""

    def __init__(self) -> None:
        self.is_broken = False
        self.tidied = 0

    def probe(self) -> None:
        """Take a write, or fail."""
        if self.is_broken:
            raise ServiceProblem("storage_unavailable")

    def tidy(self) -> None:
        """Count how often the log is kept short."""
        self.tidied += 1

    def final_among(self, plan_ids: list[str]) -> list[str]:
        """All are final."""
        return plan_ids


def test_who_waits_hears_of_a_plan_that_another_process_finished():
    """Nobody announces the plan here, but the lookout finds it final in the database."""
    others = Others()

    async def wait() -> float:
        completions = Completions()
        lookout = Lookout(others, others, completions, None)
        lookout.start()
        waiter = completions.expect("a")
        begin = time.monotonic()
        await waiter.wait(seconds=5)
        lookout.stop()
        return time.monotonic() - begin

    assert asyncio.run(wait()) < 2


def test_the_lookout_knows_whether_the_storage_takes_writes(monkeypatch):
    """It says so from the start, sees a fault within a turn, and sees it healed."""
    monkeypatch.setattr(lookout_module, "_PROBE_SECONDS", 0.05)
    monkeypatch.setattr(lookout_module, "_TURN_SECONDS", 0.02)
    others = Others()
    lookout = Lookout(others, others, Completions(), None)
    assert not lookout.storage_answers()
    lookout.start()
    assert lookout.storage_answers()
    others.is_broken = True
    until(lambda: not lookout.storage_answers(), seconds=2)
    others.is_broken = False
    until(lookout.storage_answers, seconds=2)
    turns = others.tidied
    until(lambda: others.tidied > turns, seconds=2)
    lookout.stop()


def test_cleaning_takes_one_step_of_a_turn(monkeypatch):
    """Between two steps the lookout does all else, so that health stays true for so long."""
    monkeypatch.setattr(lookout_module, "_FIRST_CLEAN_SECONDS", 0.0)
    monkeypatch.setattr(lookout_module, "_TURN_SECONDS", 0.02)
    others = Others()
    tidied = []

    def clean():
        for _ in range(5):
            tidied.append(others.tidied)
            yield

    lookout = Lookout(others, others, Completions(), None, clean=clean)
    lookout.start()
    until(lambda: len(tidied) == 5, seconds=5)
    lookout.stop()
    assert tidied == list(range(tidied[0], tidied[0] + 5))


def test_cleaning_that_fails_is_begun_anew(monkeypatch):
    """A fault of the storage ends the cleaning of this hour and nothing else."""
    monkeypatch.setattr(lookout_module, "_FIRST_CLEAN_SECONDS", 0.0)
    monkeypatch.setattr(lookout_module, "_CLEAN_SECONDS", 0.1)
    monkeypatch.setattr(lookout_module, "_TURN_SECONDS", 0.02)
    others, begun = Others(), []

    def clean():
        begun.append(others.tidied)
        yield
        raise ServiceProblem("storage_unavailable")

    lookout = Lookout(others, others, Completions(), None, clean=clean)
    lookout.start()
    until(lambda: len(begun) == 3, seconds=5)
    lookout.stop()
    assert begun[0] < begun[1] < begun[2]


def test_cleaning_that_fails_says_nothing_of_the_storage(monkeypatch):
    """Two processes that clean may get in each other's way: plans are rescued all the same."""
    monkeypatch.setattr(lookout_module, "_FIRST_CLEAN_SECONDS", 0.0)
    monkeypatch.setattr(lookout_module, "_CLEAN_SECONDS", 0.0)
    monkeypatch.setattr(lookout_module, "_TURN_SECONDS", 0.02)
    others, begun, waits = Others(), [], []

    def clean():
        begun.append(others.tidied)
        raise ServiceProblem("storage_unavailable")
        yield

    def rescuer():
        return []

    rescuer.wait_a_lease = lambda: waits.append(True)
    lookout = Lookout(others, others, Completions(), rescuer, clean=clean)
    lookout.start()
    until(lambda: len(begun) > 2, seconds=5)
    assert lookout.storage_answers()
    lookout.stop()
    assert waits == []
    assert others.tidied > 0
