"""Heaviest days limited: nobody is the heaviest laden of all for many travel days running.

Each day with travel of two or more people, those are compared by their largest load fraction
of the day in whole per cent. The days on which one and the same person alone has the highest,
in a row: <= `heaviest_days`. Days on which nobody travels are left out of the row.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.replay import Replay
from solver.checker.queries.fractions import day_fractions, whole_percent
from solver.plan import Finding

RULE = "heaviest_days_limited"


def heaviest_days_limited(replay: Replay) -> Iterator[Finding]:
    """Runs of travel days on which one person alone has the highest load fraction."""
    most = replay.facts.problem.rules.whole("heaviest_days")
    run: list[int] = []
    holder: str | None = None
    for day, fractions in sorted(day_fractions(replay).items()):
        if len(fractions) < 2:
            continue
        heaviest = _alone(fractions)
        if heaviest != holder:
            yield from _finding(holder, run, most)
            run, holder = [], heaviest
        run.append(day)
    yield from _finding(holder, run, most)


def _alone(fractions: dict[str, int]) -> str | None:
    """Who alone has the highest of a day, None where several share it."""
    highest = whole_percent(max(fractions.values()))
    holders = [person for person, f in fractions.items() if whole_percent(f) == highest]
    return holders[0] if len(holders) == 1 else None


def _finding(holder: str | None, run: list[int], most: int) -> Iterator[Finding]:
    if holder is not None and len(run) > most:
        yield Finding(
            RULE,
            f"{holder} has the day's highest load on {len(run)} travel days running, "
            f"days {run[0]} to {run[-1]}, at most {most}",
            len(run) - most,
            "days",
            (("day", run[0]), ("last_day", run[-1]), ("person", holder)),
        )
