"""Runs the service with one fault planted, to see that the proofs catch it.

`python -m tests.reliability.planted NAME`, or with the name of the fault in PLANTED_FAULT.
"""

import os
import sys
import threading
import time

from sqlalchemy import update

from service.app import create_app
from service.http.callers import Callers
from service.routes import waiting
from service.server import HandingBackServer
from service.settings import read_settings
from service.storage import database, leases, plans, sqlite_file
from service.storage.clock import NOW_MS
from service.storage.plan_ids import new_plan_id
from service.storage.plans import PlanStore, PlanSummary, StoredPlan
from service.storage.tables import PlanRow
from tests.service.fake_translation import TRANSLATION


def early_answer() -> None:
    """A plan is acknowledged half a second before it is stored."""
    store_it, read_it = PlanStore.accept, PlanStore.read
    promised: dict[str, PlanSummary] = {}
    chosen = threading.local()
    plans.new_plan_id = lambda: chosen.plan_id

    def accept(self: PlanStore, **order: object) -> PlanSummary:
        plan_id = new_plan_id()

        def later() -> None:
            time.sleep(0.5)
            chosen.plan_id = plan_id
            store_it(self, **order)

        threading.Thread(target=later, daemon=True).start()
        now_ms = time.time_ns() // 10**6
        promised[plan_id] = PlanSummary(plan_id, None, "queued", None, now_ms, None, None, 0)
        return promised[plan_id]

    def read(self: PlanStore, *, tenant_id: str, plan_id: str, **how: object) -> StoredPlan | None:
        found = read_it(self, tenant_id=tenant_id, plan_id=plan_id, **how)
        if found is None and plan_id in promised:
            return StoredPlan(promised[plan_id], b"{}", None, None)
        return found

    PlanStore.accept, PlanStore.read = accept, read


def no_rescue() -> None:
    """Nobody looks after a plan whose worker died."""
    leases.PlanQueue.rescue = lambda _self, **_: []


def no_fencing() -> None:
    """Whoever has a result writes it, whoever holds the plan."""

    def write(connection, claim, values, *, also_queued=False) -> None:
        row = update(PlanRow).where(PlanRow.plan_id == claim.plan_id)
        if "state" in values:
            connection.execute(row.values({**values, "finished_at_ms": NOW_MS}))
        else:
            # A lease that is renewed on a plan that is final would break a rule of the table.
            connection.execute(row.where(PlanRow.state == "running").values(values))

    leases._write = write


def blind() -> None:
    """A connection is used whatever became of its file, and a missing file is made anew."""
    sqlite_file._FileWatch.at_use = lambda *_: None
    database.sqlite_file.require_same_file = lambda *_: None


def stands_still() -> None:
    """Reading a body holds up everything for four tenths of a second, every two seconds."""
    read_it = waiting.read_json_body
    next_at = time.monotonic()

    async def read(*given: object, **named: object) -> bytes:
        nonlocal next_at
        if time.monotonic() > next_at:
            next_at = time.monotonic() + 2
            time.sleep(0.4)  # noqa: ASYNC251 - that is the fault
        return await read_it(*given, **named)

    waiting.read_json_body = read


def one_line() -> None:
    """Callers are not told apart before they are let in."""
    Callers.name = lambda *_: "all"


PLANTED = {
    fault.__name__: fault
    for fault in (early_answer, no_rescue, no_fencing, blind, stands_still, one_line)
}


def main() -> None:
    """Plant the fault that is named, and serve."""
    PLANTED[sys.argv[1] if sys.argv[1:] else os.environ.pop("PLANTED_FAULT")]()
    settings = read_settings()
    HandingBackServer(create_app(settings, TRANSLATION), settings).run()


if __name__ == "__main__":
    main()
