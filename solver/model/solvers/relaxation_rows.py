"""The rows of the relaxation, written from a frame: rides as whole units, loads as amounts.

Amounts are in kg and L, load fractions as fractions, which keeps the numbers of the same
size for the linear solver. They are summed in g and mL and rounded once, so that a safe bound
need not ask how they came about.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Sequence

from solver.model.formulation.flow_balance import left_after_loss
from solver.model.formulation.flow_row import FlowRow
from solver.model.formulation.flow_rows import flow_rows
from solver.model.formulation.frame import Carrier, Frame
from solver.model.rows import CountRow, LossRow, PinRow, Row, StockRow
from solver.model.solvers.linear_rows import Term, Writer
from solver.model.solvers.relaxation_columns import Relaxation
from solver.quantities import FRACTION_GRID
from solver.rulebook.goals import HARD_FROM, HARD_SLOPES, HARD_STEP

Amount = tuple[list[Term], int]
"""A sum over columns [kg or L] and a constant [g or mL]."""

_ROOM = 1.0 + 1e-9
"""What an upper bound that follows from a sum is raised by, so that rounding cannot cut it [1]."""


def build_relaxation(
    frame: Frame,
    *,
    with_excess: bool = False,
    with_shortage: bool = False,
    short_is_unused: bool = False,
    pins_lack: bool = False,
    steady: bool = False,
    seed: int = 1,
    should_stop: Callable[[], bool] | None = None,
) -> Relaxation:
    """Write the rows of a frame with loads as amounts.

    `with_excess` lets every load pass its cap by an amount of its own, kept in `excess`, to
    find out how much is missing where there is no plan; `with_shortage` lets every row on
    what must be somewhere fall short by an amount of its own, kept in `short`. With
    `short_is_unused` what a night lacks is not used either, so that it is missing from no later
    stock. With `pins_lack` it is pins that may fall short, and nothing else. A `steady` relaxation
    counts the steps of its search instead of the time.
    """
    writer = Writer()
    trips = frame.world.timeline.trips
    relaxation = Relaxation(
        frame=frame,
        writer=writer,
        trip_peak=[writer.column(1.0) for _ in trips],
        peak=writer.column(1.0),
        excess=[] if with_excess else None,
        short={} if with_shortage else None,
        short_is_unused=short_is_unused,
        pins_lack=pins_lack,
        steady=steady,
        seed=seed,
        should_stop=should_stop,
    )
    _add_rides(relaxation)
    _add_flows(relaxation)
    _add_whole_losses(relaxation)
    for trip in range(len(trips)):
        _add_trip(relaxation, trip)
        writer.row([(relaxation.peak, 1.0), (relaxation.trip_peak[trip], -1.0)], lower=0.0)
        _add_hardness(relaxation, trip)
    return relaxation


def _add_hardness(relaxation: Relaxation, trip: int) -> None:
    """A trip's fraction above 90 % cut into steps; the cheapest fill first, since costs grow."""
    steps: list[Term] = []
    for slope in HARD_SLOPES:
        # The last step has no end, but no trip is above its caps.
        column = relaxation.writer.column(HARD_STEP / FRACTION_GRID * _ROOM)
        relaxation.hard[column] = float(slope)
        steps.append((column, -1.0))
    most = HARD_FROM / FRACTION_GRID
    relaxation.writer.row([(relaxation.trip_peak[trip], 1.0), *steps], upper=most)


def _add_rides(relaxation: Relaxation) -> None:
    frame = relaxation.frame
    for cargo, its_trips in enumerate(frame.allowed_trips):
        count = frame.world.cargo[cargo].count
        for trip in its_trips:
            if (cargo, trip) not in frame.settled:
                relaxation.rides[cargo, trip] = relaxation.writer.column(float(count), whole=True)
                continue
            relaxation.settled[cargo, trip] = count
            if not frame.may_carry[cargo, trip]:
                relaxation.impossible = "units_ride_with_people"


def _add_flows(relaxation: Relaxation) -> None:
    for row in flow_rows(relaxation.frame):
        fixed = row.constant
        loose: list[Term] = []
        for ride, factor in row.terms:
            if ride in relaxation.settled:
                fixed += factor * relaxation.settled[ride]
            else:
                loose.append((relaxation.rides[ride], float(factor)))
        if (
            relaxation.short is not None
            and row.about is not None
            and _may_lack(relaxation, row.about)
        ):
            loose.append((_shortage(relaxation, row.about), _carriers(relaxation.frame, row.about)))
        if relaxation.short is not None and relaxation.short_is_unused:
            loose += _unused(relaxation, row)
        if loose:
            relaxation.writer.row(loose, lower=float(-fixed))
        elif fixed < 0:
            relaxation.impossible = relaxation.impossible or row.rule_id


def _unused(relaxation: Relaxation, row: FlowRow) -> list[Term]:
    """What earlier nights lack and so did not use: it still counts where it would have been."""
    if row.stands is not None and row.terms:
        weights, (place_id, state) = {row.terms[0][0][0]: 1}, row.stands
    elif isinstance(row.about, StockRow):
        weights, place_id, state = dict(row.about.terms), row.about.place_id, row.about.state
    else:
        return []
    return [
        (_shortage(relaxation, used), float(weights[used.terms[0][0]]))
        for used in relaxation.frame.stock_rows
        if used is not row.about
        and used.at_least == 0
        and len(used.terms) == 1
        and used.terms[0][0] in weights
        and used.place_id == place_id
        and used.state <= state
    ]


def _add_whole_losses(relaxation: Relaxation) -> None:
    """No unit rides whose loss alone would be too much: one carrier must have it whole.

    The rows on flows share what rides out among all carriers at will; a unit that counts for
    much, such as a large can, cannot be shared.
    """
    frame = relaxation.frame
    for row in (row for rows in frame.spread_rows for row in rows):
        if not isinstance(row, LossRow):
            continue
        heavy = [
            (cargo, weight)
            for cargo, weight in row.terms
            if weight > 1
            and ((cargo, row.trip) in relaxation.rides or _rides(relaxation, cargo, row.trip))
        ]
        if not heavy:
            continue
        room = left_after_loss(frame, row)
        left: dict[int, float] = defaultdict(float)
        constant = room.constant
        for ride, factor in room.terms:
            if ride in relaxation.rides:
                left[relaxation.rides[ride]] += factor
            else:
                constant += factor * relaxation.settled[ride]
        if relaxation.short is not None:
            left[_shortage(relaxation, row)] += 1.0
        for cargo, weight in heavy:
            _add_whole_loss(relaxation, (cargo, row.trip), weight, left, constant)


def _rides(relaxation: Relaxation, cargo: int, trip: int) -> bool:
    """Whether units of a cargo surely ride on a trip."""
    return relaxation.settled.get((cargo, trip), 0) > 0


def _add_whole_loss(
    relaxation: Relaxation,
    ride: tuple[int, int],
    weight: int,
    left: dict[int, float],
    constant: int,
) -> None:
    """What is `left` without a carrier is at least one unit of a ride, as soon as any rides."""
    terms = dict(left)
    if ride in relaxation.settled:
        constant -= weight
    else:
        count = relaxation.frame.world.cargo[ride[0]].count
        any_rides = units = relaxation.rides[ride]
        if count > 1:
            any_rides = relaxation.writer.column(1.0, whole=True)
            relaxation.writer.row([(any_rides, float(count)), (units, -1.0)], lower=0.0)
        terms[any_rides] = terms.get(any_rides, 0.0) - weight
    relaxation.writer.row(terms.items(), lower=float(-constant))


def _may_lack(relaxation: Relaxation, row: Row) -> bool:
    """Whether a row may fall short where rows may: pins, or all others."""
    return isinstance(row, PinRow) is relaxation.pins_lack


def _shortage(relaxation: Relaxation, row: Row) -> int:
    """By how much a row falls short, in its own unit."""
    assert relaxation.short is not None  # noqa: S101 (the caller asked)
    if row not in relaxation.short:
        relaxation.short[row] = relaxation.writer.column()
    return relaxation.short[row]


def _carriers(frame: Frame, row: Row) -> float:
    """How often a row counts in its flow: rows on one carrier are summed over all."""
    return float(len(frame.carriers[row.trip])) if isinstance(row, LossRow | CountRow) else 1.0


def _add_trip(relaxation: Relaxation, trip: int) -> None:
    """Amounts of mass and volume in each carrier of a trip, and the rows on them."""
    frame = relaxation.frame
    in_mass, in_volume = (_amounts(relaxation, trip, of_mass=of_mass) for of_mass in (True, False))
    for row in frame.load_rows[trip]:
        terms: list[Term] = []
        constant = row.fixed
        for carrier in frame.carriers[trip]:
            if carrier.person_id != row.person_id:
                continue
            if not (row.in_sled if carrier.is_sled else row.in_pack):
                continue
            more, fixed = (in_mass if row.of_mass else in_volume)[carrier.carrier_id]
            terms += more
            constant += fixed
        cap = row.cap
        if row.in_fraction:
            terms.append((relaxation.trip_peak[trip], -cap / 1000))
            cap = 0
        if relaxation.excess is not None:
            over = relaxation.writer.column()
            relaxation.excess.append((row, over))
            terms.append((over, -1.0))
        relaxation.writer.row(terms, upper=(cap - constant) / 1000)


def _pinned(frame: Frame, trip: int, cargoes: Sequence[int], *, of_mass: bool) -> dict[str, int]:
    """What is pinned of some cargoes in each carrier of a trip [g or mL]."""
    amount: dict[str, int] = defaultdict(int)
    for cargo in cargoes:
        weight = frame.weight(cargo, trip, of_mass=of_mass)
        for carrier_id, units in frame.pinned(cargo, trip).items():
            amount[carrier_id] += units * weight
    return amount


def _amounts(relaxation: Relaxation, trip: int, *, of_mass: bool) -> dict[str, Amount]:
    """What each carrier of a trip has, by its id."""
    frame, writer = relaxation.frame, relaxation.writer
    amount: dict[str, Amount] = defaultdict(lambda: ([], 0))
    groups: dict[tuple[Carrier, ...], list[int]] = defaultdict(list)
    for cargo in frame.allowed_cargo[trip]:
        groups[frame.may_carry[cargo, trip]].append(cargo)
    for able, cargoes in groups.items():
        terms: list[Term] = []
        constant = most = 0
        for cargo in cargoes:
            weight = frame.weight(cargo, trip, of_mass=of_mass)
            if not weight:
                continue
            most += weight * frame.world.cargo[cargo].count
            if (cargo, trip) in relaxation.settled:
                constant += weight * relaxation.settled[cargo, trip]
            else:
                terms.append((relaxation.rides[cargo, trip], weight / 1000))
        if not most:
            continue
        if len(able) == 1:
            had, fixed = amount[able[0].carrier_id]
            amount[able[0].carrier_id] = ([*had, *terms], fixed + constant)
            continue
        held = {} if relaxation.pins_lack else _pinned(frame, trip, cargoes, of_mass=of_mass)
        for carrier_id, pinned in held.items():
            had, fixed = amount[carrier_id]
            amount[carrier_id] = (had, fixed + pinned)
            constant -= pinned
        for carrier in able:
            share = writer.column(most / 1000 * _ROOM)
            amount[carrier.carrier_id][0].append((share, 1.0))
            terms.append((share, -1.0))
        writer.row(terms, lower=-constant / 1000, upper=-constant / 1000)
    return amount
