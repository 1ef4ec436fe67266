"""Stock of a cargo at a place in a state, as a sum over its rides.

`Σ rides in − Σ rides out + born there − used there`: written once here for every search
method, whether rides are numbers, solver variables or both.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from solver.model.frame import Frame


@dataclass(frozen=True, slots=True)
class FlowRow:
    """Σ coefficient × rides + constant ≥ 0; rides are (cargo, trip) pairs."""

    rule_id: str
    terms: tuple[tuple[tuple[int, int], int], ...]
    constant: int


def stock_terms(
    frame: Frame, cargo: int, place_id: str, state: int
) -> tuple[dict[tuple[int, int], int], int]:
    """Stock of a cargo at a place in a state: coefficients of its rides, and a constant."""
    world = frame.world
    thing = world.cargo[cargo]
    constant = thing.count if thing.birthplace == place_id and thing.born <= state else 0
    constant -= sum(
        units for event, place, units in thing.uses if place == place_id and event <= state
    )
    terms: dict[tuple[int, int], int] = {}
    for trip_index in frame.opened[cargo]:
        if world.clock.trip_event[trip_index] > state:
            continue
        trip = world.timeline.trips[trip_index]
        if trip.to_place == place_id:
            terms[cargo, trip_index] = 1
        elif trip.from_place == place_id:
            terms[cargo, trip_index] = -1
    return terms, constant


def flow_rows(frame: Frame) -> list[FlowRow]:
    """Every row that says what rides are possible and required, the tightest of those alike.

    Rides that are settled are put in as numbers; rows that hold whatever is chosen are left
    out, so a row without terms cannot be kept.
    """
    tightest: dict[tuple[tuple[tuple[int, int], int], ...], FlowRow] = {}
    for row in _all_rows(frame):
        constant, worst = row.constant, row.constant
        loose = []
        for ride, factor in row.terms:
            count = frame.world.cargo[ride[0]].count
            if ride in frame.settled:
                constant += factor * count
                worst += factor * count
            elif factor:
                loose.append((ride, factor))
                worst += min(0, factor * count)
        if worst >= 0:
            continue
        terms = tuple(loose)
        if terms not in tightest or constant < tightest[terms].constant:
            tightest[terms] = FlowRow(row.rule_id, terms, constant)
    return list(tightest.values())


def _all_rows(frame: Frame) -> Iterator[FlowRow]:
    for cargo in sorted(frame.conserved):
        yield from _leaves_only_what_stands(frame, cargo)
    for row in frame.stock_rows:
        terms: dict[tuple[int, int], int] = {}
        constant = -row.at_least
        for cargo, weight in row.terms:
            its_terms, its_constant = stock_terms(frame, cargo, row.place_id, row.state)
            constant += weight * its_constant
            for ride, sign in its_terms.items():
                terms[ride] = terms.get(ride, 0) + weight * sign
        yield FlowRow(row.rule_id, tuple(terms.items()), constant)


def _leaves_only_what_stands(frame: Frame, cargo: int) -> Iterator[FlowRow]:
    trips, clock = frame.world.timeline.trips, frame.world.clock
    leaving: dict[tuple[int, str], list[int]] = {}
    for trip_index in frame.opened[cargo]:
        key = (clock.trip_event[trip_index], trips[trip_index].from_place)
        leaving.setdefault(key, []).append(trip_index)
    for (event, place_id), trip_indices in leaving.items():
        terms, constant = stock_terms(frame, cargo, place_id, event - 1)
        for trip_index in trip_indices:
            terms[cargo, trip_index] = terms.get((cargo, trip_index), 0) - 1
        yield FlowRow("units_conserved", tuple(terms.items()), constant)
