"""Rows that fall short, told in trade words: where, on which day, and how much is missing."""

from __future__ import annotations

from collections import defaultdict
from math import ceil

from solver.model.formulation.frame import Frame
from solver.model.rows import CountRow, LossRow, ReachRow, Row, SomeRideRow, StockRow
from solver.outcome import Conflict
from solver.rulebook import rule


def describe_shortages(frame: Frame, short: list[tuple[Row, float]]) -> tuple[Conflict, ...]:
    """One conflict for each rule, naming the worst place and how many more there are."""
    by_rule: dict[str, list[tuple[Row, float]]] = defaultdict(list)
    for row, amount in short:
        by_rule[row.rule_id].append((row, amount))
    told = []
    for rule_id, rows in by_rule.items():
        row, amount = max(rows, key=lambda pair: pair[1])
        more = "" if len(rows) == 1 else f" It is so at {len(rows)} times or places."
        told.append(
            Conflict(
                rule_id,
                f"{_where(frame, row)}: {ceil(amount - 1e-6)} {_unit(frame, row)} short, "
                f"whatever the plan.{more} {rule(rule_id).sentence}",
                rule(rule_id).instead,
            )
        )
    return tuple(told)


def _unit(frame: Frame, row: Row) -> str:
    """What a row counts, from what its terms are."""
    if isinstance(row, StockRow | ReachRow | SomeRideRow | CountRow | LossRow):
        for cargo, weight in row.terms:
            thing = frame.world.cargo[cargo]
            if thing.fuel_ml and weight == thing.fuel_ml:
                return "mL of fuel"
            if thing.sets and weight == thing.sets > 1:
                return "night sets"
    return rule(row.rule_id).unit


def _where(frame: Frame, row: Row) -> str:
    world = frame.world
    match row:
        case LossRow() | CountRow() | SomeRideRow():
            trip = world.timeline.trips[row.trip]
            return f"Day {trip.day}, {trip.from_place} to {trip.to_place}"
        case StockRow():
            return f"{_when(frame, row.state)} at {row.place_id}"
        case ReachRow():
            return f"{_when(frame, row.state)} at {' and '.join(row.place_ids)}"
    return "Anywhere"


def _when(frame: Frame, state: int) -> str:
    """The night or the trips that a state is nearest to."""
    clock = frame.world.clock
    for day, event in clock.night_event.items():
        if event in (state, state + 1):
            return f"Night of day {day}"
    days = [frame.world.timeline.trips[t.index].day for t in clock.trips_at[max(state, 1)]]
    return f"Day {days[0]}" if days else "At the end"
