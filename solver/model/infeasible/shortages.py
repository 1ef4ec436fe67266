"""Rows that fall short, told in trade words: where, on which day, and how much is missing."""

from __future__ import annotations

from collections import defaultdict
from math import ceil

from solver.model.formulation.frame import Frame
from solver.model.rows import CountRow, LossRow, ReachRow, Row, SomeRideRow, StockRow
from solver.outcome import Conflict, Occurrence, remedies_of
from solver.problem import NeedKind, Purpose
from solver.rulebook import rule


def describe_shortages(frame: Frame, short: list[tuple[Row, float]]) -> tuple[Conflict, ...]:
    """One conflict for each rule, naming the worst place and how many more there are."""
    by_rule: dict[str, list[tuple[Row, float]]] = defaultdict(list)
    for row, amount in short:
        by_rule[row.rule_id].append((row, amount))
    return tuple(_conflict(frame, rows) for rows in by_rule.values())


def _conflict(frame: Frame, rows: list[tuple[Row, float]]) -> Conflict:
    ordered = sorted(rows, key=lambda pair: -pair[1])
    row, amount = ordered[0]
    its_rule = rule(row.rule_id)
    more = "" if len(rows) == 1 else f" It is so at {len(rows)} times or places."
    return Conflict(
        row.rule_id,
        f"{_where(frame, row)}: {_words(frame, row, amount)} short, "
        f"whatever the plan.{more} {its_rule.sentence}",
        remedies_of(tuple(text for text in its_rule.instead if not _in_force(frame, row, text))),
        ceil(amount - 1e-6),
        _unit(frame, row),
        _pairs(frame, row),
        tuple(
            Occurrence(
                other.rule_id,
                f"{_where(frame, other)}: {_words(frame, other, short)} short",
                ceil(short - 1e-6),
                _unit(frame, other),
                _pairs(frame, other),
            )
            for other, short in ordered[1:]
        ),
    )


def _in_force(frame: Frame, row: Row, text: str) -> bool:
    """Whether a change of the rulebook's is what the request has already."""
    problem = frame.world.problem
    if text.startswith("give the party a stove, a pot and a fuel container that ride every trip"):
        ride = {item.purpose for item in problem.gear if item.need.kind is NeedKind.EVERY_TRIP}
        return {Purpose.STOVE, Purpose.POT} <= ride
    if text.endswith("hold a reserve at the camp itself") and isinstance(row, StockRow):
        return any(reserve.place_id == row.place_id for reserve in problem.reserves)
    return False


def _words(frame: Frame, row: Row, amount: float) -> str:
    number, unit = ceil(amount - 1e-6), _unit(frame, row)
    if number == 1:
        unit = "person" if unit == "people" else unit.removesuffix("s")
    return f"{number} {unit}"


def _unit(frame: Frame, row: Row) -> str:
    """What a row counts, from what its terms are."""
    its_unit = rule(row.rule_id).unit
    if isinstance(row, StockRow | ReachRow | SomeRideRow | CountRow | LossRow):
        for cargo, weight in row.terms:
            thing = frame.world.cargo[cargo]
            if thing.fuel_ml and weight == thing.fuel_ml:
                return "mL of fuel"
            # A bag of one set counts one; where a rule speaks of nights, that is a set as well.
            if thing.sets == weight and (weight > 1 or its_unit == "nights"):
                return "night sets"
    return its_unit


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


def _pairs(frame: Frame, row: Row) -> tuple[tuple[str, str | int], ...]:
    """A row's trip, or its place and day, as (name, value) pairs."""
    world = frame.world
    match row:
        case LossRow() | CountRow() | SomeRideRow():
            trip = world.timeline.trips[row.trip]
            return (
                ("day", trip.day),
                ("step", trip.step),
                ("from_place", trip.from_place),
                ("to_place", trip.to_place),
            )
        case StockRow():
            return (*_day(frame, row.state), ("place", row.place_id))
        case ReachRow():
            return (*_day(frame, row.state), ("place", row.place_ids[0]))
    return ()


def _day(frame: Frame, state: int) -> tuple[tuple[str, str | int], ...]:
    """The night or day that a state is nearest to."""
    clock = frame.world.clock
    for day, event in clock.night_event.items():
        if event in (state, state + 1):
            return (("night", day),)
    days = [frame.world.timeline.trips[t.index].day for t in clock.trips_at[max(state, 1)]]
    return (("day", days[0]),) if days else ()


def _when(frame: Frame, state: int) -> str:
    """The night or the trips that a state is nearest to."""
    clock = frame.world.clock
    for day, event in clock.night_event.items():
        if event in (state, state + 1):
            return f"Night of day {day}"
    days = [frame.world.timeline.trips[t.index].day for t in clock.trips_at[max(state, 1)]]
    return f"Day {days[0]}" if days else "At the end"
