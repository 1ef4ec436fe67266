"""Stock of a cargo at a place in a state, as a sum over its rides.

`Σ rides in − Σ rides out + born there − used there`: written once here for every search
method, whether rides are numbers, solver variables or both.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from solver.model.formulation.frame import Frame
from solver.model.rows import ApartRow, CountRow, LossRow, Row, SpreadRow, StockRow


@dataclass(frozen=True, slots=True)
class FlowRow:
    """Σ coefficient × rides + constant ≥ 0; rides are (cargo, trip) pairs.

    `about` is the rule's row that it was made from, None where it only conserves units.
    """

    rule_id: str
    terms: tuple[tuple[tuple[int, int], int], ...]
    constant: int
    about: Row | None = None


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
    out, so a row without terms cannot be kept. They are worked out once for each frame.
    """
    if "flow rows" not in frame.known:
        frame.known["flow rows"] = _flow_rows(frame)
    rows: list[FlowRow] = frame.known["flow rows"]  # type: ignore[assignment]
    return rows


def _flow_rows(frame: Frame) -> list[FlowRow]:
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
            tightest[terms] = FlowRow(row.rule_id, terms, constant, row.about)
    return list(tightest.values())


def within_reach(
    frame: Frame, terms: tuple[tuple[int, int], ...], place_ids: tuple[str, ...], state: int
) -> tuple[dict[tuple[int, int], int], int]:
    """Σ weight × units standing at some places: coefficients of rides, and a constant."""
    total: dict[tuple[int, int], int] = {}
    constant = 0
    for cargo, weight in terms:
        for place_id in place_ids:
            its_terms, its_constant = stock_terms(frame, cargo, place_id, state)
            constant += weight * its_constant
            for ride, sign in its_terms.items():
                total[ride] = total.get(ride, 0) + weight * sign
    return total, constant


def left_after_loss(frame: Frame, row: LossRow) -> FlowRow:
    """What one carrier of a row's trip may take at most, as a sum over rides."""
    state = frame.world.clock.trip_event[row.trip]
    terms, constant = within_reach(frame, row.terms, row.place_ids, state)
    loose = tuple((ride, factor) for ride, factor in terms.items() if factor)
    return FlowRow(row.rule_id, loose, constant - row.at_least)


def keeps_flows(frame: Frame, rides: Rides) -> bool:
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
    for trip in range(len(frame.world.timeline.trips)):
        for spread in frame.spread_rows[trip]:
            if not isinstance(spread, ApartRow):
                yield _shares_fit(frame, spread)


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


def without_idle_losses(frame: Frame) -> Frame:
    """The frame without the loss rows that hold whatever is chosen.

    What stays behind where a trip begins, since it is used or kept there before anything can
    come back, is never lost with a carrier.
    """
    kept = tuple(
        tuple(
            row
            for row in rows
            if not isinstance(row, LossRow) or _stays_behind(frame, row) < row.at_least
        )
        for rows in frame.spread_rows
    )
    return replace(frame, spread_rows=kept, known={})


def _stays_behind(frame: Frame, row: LossRow) -> int:
    """Σ weight × units that must stand within reach while the trip is under way, at least."""
    trip = frame.world.timeline.trips[row.trip]
    event = frame.world.clock.trip_event[row.trip]
    elsewhere = (place for place in row.place_ids if place != trip.to_place)
    return sum(_must_stand(frame, row, place_id, event) for place_id in elsewhere)


def _must_stand(frame: Frame, row: LossRow, place_id: str, event: int) -> int:
    """Σ weight × units that stand at a place after an event, at least.

    For each stock what is used there before any of it can come back, or kept there over some
    night until then; of things those that have no choice but to stand there.
    """
    world = frame.world
    weight_of = dict(row.terms)
    returns = {cargo: _comes_back(frame, cargo, place_id, event) for cargo in weight_of}
    uses = [
        (at, cargo, weight * units)
        for cargo, weight in weight_of.items()
        for at, place, units in world.cargo[cargo].uses
        if place == place_id and event <= at < returns[cargo]
    ]
    best = sum(amount for _, _, amount in uses)
    for held in frame.kept_at.get(place_id, ()):
        kept = _kept_by(held, weight_of)
        if kept and event <= held.state < min(returns[cargo] for cargo, _ in held.terms):
            so_far = sum(amount for at, _, amount in uses if at <= held.state)
            best = max(best, so_far + kept)
    settled = sum(
        weight * _settled_there(frame, cargo, place_id, event)
        for cargo, weight in weight_of.items()
        if not world.cargo[cargo].is_stock
    )
    return best + settled


def _comes_back(frame: Frame, cargo: int, place_id: str, event: int) -> int:
    """The first event from one on in which units of a cargo may arrive at a place."""
    trips, clock = frame.world.timeline.trips, frame.world.clock
    arrivals = (clock.trip_event[t] for t in frame.opened[cargo] if trips[t].to_place == place_id)
    return min((at for at in arrivals if at >= event), default=clock.last + 1)


def _kept_by(held: StockRow, weight_of: dict[int, int]) -> int:
    """How much of a weighted sum a row keeps at its place, 0 where it is about other things."""
    if held.at_least <= 0 or not all(cargo in weight_of for cargo, _ in held.terms):
        return 0
    if all(weight_of[cargo] == weight for cargo, weight in held.terms):
        return held.at_least
    ((cargo, weight), *more) = held.terms
    return 0 if more or weight != 1 else weight_of[cargo] * held.at_least


def _settled_there(frame: Frame, cargo: int, place_id: str, state: int) -> int:
    """Units of a thing that stand at a place in a state whatever is chosen."""
    terms, constant = stock_terms(frame, cargo, place_id, state)
    count = frame.world.cargo[cargo].count
    if any(ride not in frame.settled for ride in terms):
        return 0
    return constant + sum(factor * count for factor in terms.values())


Rides = Mapping[tuple[int, int], int]


def rooms(frame: Frame, rides: Rides) -> list[tuple[int, ...]]:
    """For each trip and each of its spread rows, what one carrier may hold at most.

    The amounts follow from the rides of the whole plan: what stands within reach counts.
    """
    return [
        tuple(_room(frame, row, rides) for row in frame.spread_rows[trip])
        for trip in range(len(frame.world.timeline.trips))
    ]


def _room(frame: Frame, row: SpreadRow, rides: Rides) -> int:
    match row:
        case CountRow():
            return row.at_most
        case LossRow():
            left = left_after_loss(frame, row)
            return left.constant + sum(rides.get(ride, 0) * factor for ride, factor in left.terms)
        case ApartRow():
            total = sum(rides.get((cargo, row.trip), 0) for cargo in row.cargoes)
            return (total + 1) // 2 if row.half else max(total - 1, 1)


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
