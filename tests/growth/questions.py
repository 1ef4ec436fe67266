"""What is asked of a database full of plans, and how long each answer takes."""

import time
from collections.abc import Callable
from contextlib import contextmanager
from dataclasses import dataclass
from statistics import median

from sqlalchemy import Engine, event, text

from service.storage.leases import PlanQueue
from service.storage.plans import PlanStore
from service.storage.retention import RetentionStore
from tests.growth.rows import LARGE, SPAN_MS

PAGE_MS = 50.0
"""The promise: a filtered page takes at most this [ms]."""
_SMALL = "agency-07"
_DAY_MS = 86_400_000


@dataclass(frozen=True)
class Answered:
    """One question, asked again and again: its median and longest time [ms], and rows found."""

    name: str
    median_ms: float
    longest_ms: float
    rows: int
    is_page: bool


def pages(store: PlanStore, now_ms: int) -> dict[str, Callable[[], list]]:
    """Every way of asking for a page of the list."""
    middle = now_ms - SPAN_MS // 2
    place = store.list(tenant_id=LARGE, before_plan_id=None, limit=100)[-1].plan_id
    deep = store.list(tenant_id=LARGE, before_plan_id=None, limit=1, created_before_ms=middle)
    reference = next(
        plan.reference
        for plan in store.list(tenant_id=LARGE, before_plan_id=deep[0].plan_id, limit=9)
        if plan.reference
    )

    def page(tenant_id: str = LARGE, limit: int = 100, **filters: object) -> Callable[[], list]:
        asked = {"before_plan_id": None, **filters}
        return lambda: store.list(tenant_id=tenant_id, limit=limit, **asked)

    month = {"created_from_ms": middle, "created_before_ms": middle + 30 * _DAY_MS}
    old = {"created_before_ms": now_ms - SPAN_MS + 30 * _DAY_MS}
    nothing = {"created_from_ms": now_ms + 30 * _DAY_MS}
    return {
        "the newest page": page(),
        "the second page": page(before_plan_id=place),
        "a page in the middle": page(before_plan_id=deep[0].plan_id),
        "a page of a small tenant": page(_SMALL),
        "one reference": page(reference=reference),
        "a reference that nobody used": page(reference="no such booking"),
        "failed plans": page(state="failed"),
        "plans that wait": page(state="queued"),
        "a month a year ago": page(**month),
        "failed plans of that month": page(**month, state="failed"),
        "one reference in that month": page(**month, reference=reference),
        "the oldest month": page(**old),
        "plans of the time to come": page(**nothing),
        "cancelled, of a small tenant, the oldest": page(_SMALL, **old, state="cancelled"),
    }


def others(store: PlanStore, queue: PlanQueue, engine: Engine) -> dict[str, Callable[[], list]]:
    """What else the service asks, beside pages."""
    (newest,) = store.list(tenant_id=LARGE, before_plan_id=None, limit=1)

    def accept() -> list:
        order = {"tenant_id": LARGE, "reference": None, "solve_seconds": 1.0}
        return [store.accept(**order, document={"a": "x" * 25_000})]

    return {
        "one plan with its documents": lambda: [
            store.read(tenant_id=LARGE, plan_id=newest.plan_id)
        ],
        "a plan accepted (25 kB)": accept,
        "a plan claimed": lambda: [queue.claim()],
        "a rescue that finds nothing": lambda: queue.rescue(
            outcome_kind="failed", outcome_of=lambda request: request
        ),
        "the figures of the queue": lambda: [store.queue_figures()],
        "the probe of each second": lambda: [store.probe()],
    }


def ask(name: str, question: Callable[[], list], *, times: int, is_page: bool) -> Answered:
    """Ask once to warm up, then so often."""
    question()
    taken, found = [], []
    for _ in range(times):
        begin = time.perf_counter()
        found = question()
        taken.append((time.perf_counter() - begin) * 1000)
    return Answered(name, median(taken), max(taken), len(found), is_page)


def ask_all(engine: Engine, *, times: int) -> list[Answered]:
    """Every question, pages first."""
    now_ms = time.time_ns() // 10**6
    store = PlanStore(engine, queue_limit=10_000)
    queue = PlanQueue(engine, lease_ms=3_600_000)
    answered = [
        ask(name, question, times=times, is_page=True)
        for name, question in pages(store, now_ms).items()
    ]
    return answered + [
        ask(name, question, times=times, is_page=False)
        for name, question in others(store, queue, engine).items()
    ]


def retention_seconds(engine: Engine, days: int) -> tuple[int, float]:
    """Remove a small tenant's plans that are older; how many went, and how long it took [s]."""
    store = RetentionStore(engine)
    store.keep(tenant_id=_SMALL, days=days)
    begin = time.monotonic()
    removed = store.remove_old()
    taken = time.monotonic() - begin
    store.keep(tenant_id=_SMALL, days=None)
    return removed, taken


@contextmanager
def statements(engine: Engine):
    """The statements with their values that run within the context."""
    seen: list[tuple[str, object]] = []

    def note(_connection, _cursor, statement, values, *_) -> None:
        if statement.startswith("SELECT plans"):
            seen.append((statement, values))

    event.listen(engine, "before_cursor_execute", note)
    yield seen
    event.remove(engine, "before_cursor_execute", note)


def query_plan(engine: Engine, statement: str, values: object) -> str:
    """How the database would find the rows of a statement."""
    words = "EXPLAIN QUERY PLAN " if engine.dialect.name == "sqlite" else "EXPLAIN "
    with engine.connect() as connection:
        if engine.dialect.name == "postgresql":
            # A small table is read whole; what is asked is whether an index would serve.
            connection.execute(text("SET LOCAL enable_seqscan = off"))
        rows = connection.exec_driver_sql(words + statement, values).all()
    return "\n".join(str(row[-1]) for row in rows)
