"""Runs the service with one fault planted, to see that the proofs catch it.

`python -m tests.reliability.planted early_answer|no_rescue|no_fencing|blind`
"""

import sys
import threading
import time

from sqlalchemy import update

from service.app import create_app
from service.server import HandingBackServer
from service.settings import read_settings
from service.storage import database, leases, sqlite_file
from service.storage.clock import NOW_MS
from service.storage.plans import PlanStore, PlanSummary
from service.storage.tables import PlanRow
from tests.service.fake_translation import TRANSLATION


def early_answer() -> None:
    """A plan is acknowledged before it is stored."""
    store_it = PlanStore.accept

    def accept(self: PlanStore, **order: object) -> PlanSummary:
        name: list[str] = []

        def later() -> None:
            time.sleep(0.5)
            store_it(self, **order)

        threading.Thread(target=later, daemon=True).start()
        name.append(f"plan_{time.time_ns():026d}")
        return PlanSummary(name[0], None, "queued", None, time.time_ns() // 10**6, None, None, 0)

    PlanStore.accept = accept


def no_rescue() -> None:
    """Nobody looks after a plan whose worker died."""
    leases.PlanQueue.rescue = lambda _self, **_: []


def no_fencing() -> None:
    """Whoever has a result writes it, whoever holds the plan."""

    def write(connection, claim, values, *, also_queued=False) -> None:
        values = {**values, "finished_at_ms": NOW_MS}
        connection.execute(update(PlanRow).where(PlanRow.plan_id == claim.plan_id).values(values))

    leases._write = write


def blind() -> None:
    """A connection is used whatever became of its file, and a missing file is made anew."""
    sqlite_file._FileWatch.at_use = lambda *_: None
    database.sqlite_file.require_same_file = lambda *_: None


PLANTED = {f.__name__: f for f in (early_answer, no_rescue, no_fencing, blind)}


def main() -> None:
    """Plant the fault that is named, and serve."""
    PLANTED[sys.argv[1]]()
    settings = read_settings()
    HandingBackServer(create_app(settings, TRANSLATION), settings).run()


if __name__ == "__main__":
    main()
