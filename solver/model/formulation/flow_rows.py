"""Every row on rides that a frame has: what rides are possible and what rides are required."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from solver.model.formulation.flow_balance import left_after_loss, stock_terms, within_reach
from solver.model.formulation.flow_row import FlowRow, Rides
from solver.model.formulation.frame import Frame
from solver.model.rows import ApartRow, CountRow, LossRow, PinRow


def flow_rows(frame: Frame) -> tuple[FlowRow, ...]:
    """Every row that says what rides are possible and required, the tightest of those alike.

    Rides that are settled are put in as numbers; rows that hold whatever is chosen are left
    out, so a row without terms cannot be kept. They are worked out once for each frame.
    """
    if frame.cache.rows is None:
        frame.cache.rows = tuple(_tightest(frame))
    return frame.cache.rows


def _tightest(frame: Frame) -> Iterable[FlowRow]:
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
            tightest[terms] = FlowRow(row.rule_id, terms, constant, row.about, row.stands)
    return tightest.values()


def keeps_flow_rows(frame: Frame, rides: Rides) -> bool:
    """Whether the rides of a whole plan keep every row on them."""
    return all(
        row.constant + sum(factor * rides.get(ride, 0) for ride, factor in row.terms) >= 0
        for row in flow_rows(frame)
    )


def _all_rows(frame: Frame) -> Iterator[FlowRow]:
    for cargo in sorted(frame.conserved):
        yield from _leaves_only_what_stands(frame, cargo)
    for row in frame.stock_rows:
        terms, constant = within_reach(frame, row.terms, (row.place_id,), row.state)
        yield FlowRow(row.rule_id, tuple(terms.items()), constant - row.at_least, row)
    for reach in frame.reach_rows:
        terms, constant = within_reach(frame, reach.terms, reach.place_ids, reach.state)
        yield FlowRow(reach.rule_id, tuple(terms.items()), constant - reach.at_least, reach)
    for some in frame.some_ride_rows:
        rides = (((cargo, some.trip), weight) for cargo, weight in some.terms)
        opened = tuple((ride, weight) for ride, weight in rides if ride in frame.may_carry)
        yield FlowRow(some.rule_id, opened, -some.at_least, some)
    for pin in frame.pin_rows:
        yield _pin_rides(frame, pin)
    for trip in range(len(frame.world.timeline.trips)):
        for spread in frame.spread_rows[trip]:
            if not isinstance(spread, ApartRow):
                yield _shares_fit(frame, spread)


def _pin_rides(frame: Frame, row: PinRow) -> FlowRow:
    """All units that are pinned to carriers of a trip ride on it; none where one may not."""
    if row.cargo is None or (row.cargo, row.trip) not in frame.may_carry:
        return FlowRow(row.rule_id, (), -row.at_least, row)
    able = {carrier.carrier_id for carrier in frame.may_carry[row.cargo, row.trip]}
    pinned = frame.pinned(row.cargo, row.trip)
    if not able >= pinned.keys():
        return FlowRow(row.rule_id, (), -row.at_least, row)
    return FlowRow(row.rule_id, (((row.cargo, row.trip), 1),), -sum(pinned.values()), row)


def _shares_fit(frame: Frame, row: CountRow | LossRow) -> FlowRow:
    """All carriers together can take what rides: what one may, times their number."""
    carriers = len(frame.carriers[row.trip])
    if isinstance(row, CountRow):
        most = FlowRow(row.rule_id, (), row.at_most)
    else:
        most = left_after_loss(frame, row)
    terms = {ride: carriers * factor for ride, factor in most.terms}
    for cargo, weight in row.terms:
        if (cargo, row.trip) in frame.may_carry:
            terms[cargo, row.trip] = terms.get((cargo, row.trip), 0) - weight
    return FlowRow(row.rule_id, tuple(terms.items()), carriers * most.constant, row)


def _leaves_only_what_stands(frame: Frame, cargo: int) -> Iterator[FlowRow]:
    trips, clock = frame.world.timeline.trips, frame.world.clock
    leaving: dict[tuple[int, str], list[int]] = {}
    for trip_index in frame.allowed_trips[cargo]:
        key = (clock.trip_event[trip_index], trips[trip_index].from_place)
        leaving.setdefault(key, []).append(trip_index)
    for (event, place_id), trip_indices in leaving.items():
        terms, constant = stock_terms(frame, cargo, place_id, event - 1)
        for trip_index in trip_indices:
            terms[cargo, trip_index] = terms.get((cargo, trip_index), 0) - 1
        stands = (place_id, event - 1)
        yield FlowRow("units_conserved", tuple(terms.items()), constant, stands=stands)
