"""Fills a database with generated plans, quickly: a large tenant, forty small ones, two years.

The plans are spread evenly over the time before now. Their documents are short, but for the newest
three hundred of the large tenant, which are as large as real ones.
"""

import io
import random
import sqlite3
import time
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import psycopg

LARGE = "agency-large"
SPAN_MS = 2 * 365 * 86_400_000
_TENANTS = (LARGE, *(f"agency-{number:02}" for number in range(40)))
_WEIGHTS = (60, *[1] * 40)
_ALPHABET = "0123456789abcdefghjkmnpqrstvwxyz"
_COLUMNS = (
    "plan_id, tenant_id, reference, state, created_at_ms, started_at_ms, finished_at_ms, "
    "request_document, request_digest, solve_seconds, outcome_document, outcome_kind, attempt, "
    "wire_version, rules_version"
)
_EVENT_COLUMNS = "plan_id, event_number, kind, at_ms"
_REAL_BYTES = 31_000, 1_300_000
_REAL_PLANS = 300
_BATCH = 20_000


@dataclass(frozen=True)
class Filled:
    """What was put in, and how long that took [s]."""

    plans: int
    seconds: float


def made_plans(count: int, now_ms: int) -> Iterator[tuple]:
    """Generated rows of plans, the oldest first; the same for the same count and time."""
    chance = random.Random(count)
    tenants = chance.choices(_TENANTS, _WEIGHTS, k=count)
    large_from = count - int(_REAL_PLANS / 0.6)
    for number, tenant in enumerate(tenants):
        at = now_ms - SPAN_MS + (number + 1) * SPAN_MS // (count + 1)
        state = chance.choices(("done", "failed", "cancelled"), (96, 1, 3))[0]
        real = tenant == LARGE and number >= large_from
        request, outcome = (b"x" * size for size in _REAL_BYTES) if real else (b"{}", b"{}")
        yield (
            _name(at, chance),
            tenant,
            f"booking-{chance.randrange(max(1, count // 4))}" if number % 10 else None,
            state,
            at,
            at + 1_000,
            at + 31_000,
            request,
            f"{number:064x}",
            30.0,
            outcome if state != "cancelled" else None,
            {"done": "solved", "failed": "failed"}.get(state),
            1,
            "1.0",
            "0123456789abcdef",
        )


def _name(at_ms: int, chance: random.Random) -> str:
    number = at_ms << 80 | chance.getrandbits(80)
    return "plan_" + "".join(_ALPHABET[number >> 5 * place & 31] for place in reversed(range(26)))


def _events(plan: tuple) -> list[tuple]:
    """What happened to a plan: accepted, begun, ended."""
    return [(plan[0], 1, "queued", plan[4]), (plan[0], 2, "running", plan[5]),
            (plan[0], 3, plan[3], plan[6])]  # fmt: skip


def _batches(count: int) -> Iterator[list[tuple]]:
    batch = []
    for plan in made_plans(count, time.time_ns() // 10**6):
        batch.append(plan)
        if len(batch) == _BATCH:
            yield batch
            batch = []
    yield batch


def fill_sqlite(path: Path, count: int) -> Filled:
    """Put so many plans into a migrated file."""
    begin = time.monotonic()
    database = sqlite3.connect(path, isolation_level=None)
    database.execute("PRAGMA synchronous = OFF")
    for batch in _batches(count):
        database.execute("BEGIN IMMEDIATE")
        marks = ", ".join("?" * len(batch[0])) if batch else ""
        if batch:
            database.executemany(f"INSERT INTO plans ({_COLUMNS}) VALUES ({marks})", batch)  # noqa: S608
            events = (event for plan in batch for event in _events(plan))
            told = f"INSERT INTO plan_events ({_EVENT_COLUMNS}) VALUES (?, ?, ?, ?)"  # noqa: S608
            database.executemany(told, events)
        database.execute("COMMIT")
    database.close()
    return Filled(count, time.monotonic() - begin)


def fill_postgresql(address: str, count: int) -> Filled:
    """Put so many plans into a migrated database, and have it count its rows."""
    begin = time.monotonic()
    with psycopg.connect(address) as connection, connection.cursor() as cursor:
        # The rows are known to belong together, so that nobody need look each one up.
        cursor.execute("SET session_replication_role = replica")
        cursor.execute("SET synchronous_commit = off")
        for batch in _batches(count):
            with cursor.copy(f"COPY plans ({_COLUMNS}) FROM STDIN") as copy:
                for plan in batch:
                    copy.write_row(plan)
            lines = io.StringIO()
            for plan in batch:
                lines.writelines("\t".join(map(str, event)) + "\n" for event in _events(plan))
            with cursor.copy(f"COPY plan_events ({_EVENT_COLUMNS}) FROM STDIN") as copy:
                copy.write(lines.getvalue())
            connection.commit()
    with psycopg.connect(address, autocommit=True) as connection:
        connection.execute("VACUUM ANALYZE")
    return Filled(count, time.monotonic() - begin)
