"""Why there is no greedy plan: the day on which it failed, and the reason."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass

from solver.model.formulation.flow_row import Rides
from solver.model.formulation.flow_rows import flow_rows
from solver.model.formulation.frame import Frame
from solver.model.formulation.spread_slack import Slack
from solver.model.instance.clock import Clock, Stop
from solver.model.packing.trip_load import TripLoad
from solver.model.rows import LoadRow, ReachRow, StockRow, spread_weights
from solver.rulebook import rule


@dataclass(frozen=True, slots=True)
class Stranded:
    """A unit of a cargo for which no way leads to its stops; None where it is not one unit."""

    cargo: int | None = None
    stops: tuple[Stop, ...] = ()


@dataclass(frozen=True, slots=True)
class Unpacked:
    """A trip whose units cannot be shared out, as they lay when that was given up."""

    trip: int
    load: TripLoad
    slack: Slack


def stranded_words(frame: Frame, stranded: Stranded) -> str:
    """Which unit does not get where it is used or kept, and on which day it should be there."""
    if stranded.cargo is None:
        return "Stock that several kinds of units may make up was not shared out by hand."
    unit_id = frame.world.cargo[stranded.cargo].unit_id
    if not stranded.stops:
        return f"No way was found for {unit_id} by hand."
    state, place_id = stranded.stops[0]
    day = day_of(frame.world.clock, state)
    return f"Day {day}: no way was found by hand for {unit_id} to be at {place_id} in time."


def broken_words(frame: Frame, rides: Rides) -> str:
    """The first rule that the rides break, and its day."""
    for row in flow_rows(frame):
        if row.constant + sum(factor * rides.get(ride, 0) for ride, factor in row.terms) >= 0:
            continue
        about, sentence = row.about, rule(row.rule_id).sentence
        if isinstance(about, StockRow | ReachRow):
            return (
                f"Day {day_of(frame.world.clock, about.state)}: the rides break a rule. {sentence}"
            )
        if about is not None and (trip := getattr(about, "trip", None)) is not None:
            return f"{_trip_words(frame, trip)}: the rides break a rule. {sentence}"
        return f"The rides break a rule. {sentence}"
    return "The rides break a rule."


def unpacked_words(frame: Frame, unpacked: Unpacked) -> str:
    """The trip, and whose cap or which rule does not let its units be shared out."""
    load, begin = unpacked.load, _trip_words(frame, unpacked.trip)
    over: list[tuple[int, LoadRow]] = [
        (held - row.cap, row)
        for held, row in zip(load.load.tolist(), frame.load_rows[unpacked.trip], strict=False)
        if held > row.cap
    ]
    if over:
        most, row = max(over, key=lambda one: one[0] / max(one[1].cap, 1))
        people = len({one.person_id for _, one in over})
        others = f", as would {people - 1} more by some amount" if people > 1 else ""
        unit = "kg" if row.of_mass else "L"
        return (
            f"{begin}: what rides that day by hand does not fit, {row.person_id} would be "
            f"{most / 1000:.2f} {unit} over{others}. {rule(row.rule_id).sentence}"
        )
    told = " ".join(rule(rule_id).sentence for rule_id in _broken_spread(frame, unpacked))
    return f"{begin}: what rides that day by hand cannot be shared out. {told}".rstrip()


def _broken_spread(frame: Frame, unpacked: Unpacked) -> list[str]:
    """The rules on sharing out that a carrier breaks as the units lay."""
    held = unpacked.load.held()
    found: dict[str, None] = {}
    for row, most in zip(frame.spread_rows[unpacked.trip], unpacked.slack, strict=True):
        weights, by_carrier = spread_weights(row), Counter[str]()
        for (cargo, carrier_id), units in held.items():
            by_carrier[carrier_id] += units * weights.get(cargo, 0)
        if any(amount > most for amount in by_carrier.values()):
            found[row.rule_id] = None
    return list(found)


def day_of(clock: Clock, state: int) -> int:
    """The day of the event that leads to a state; the first for the start."""
    nights = [day for day, event in sorted(clock.night_event.items()) if event >= state]
    return nights[0] if nights else max(clock.night_event, default=0) + 1


def _trip_words(frame: Frame, trip: int) -> str:
    it = frame.world.timeline.trips[trip]
    return f"Day {it.day}, {it.from_place} to {it.to_place}"
