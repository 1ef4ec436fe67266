"""The rows of the relaxation, written from a frame: rides as whole units, loads as amounts.

Amounts are in kg and L, load fractions as fractions, which keeps the numbers of the same
size for the linear solver.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable
from dataclasses import dataclass, field

from solver.model.formulation.flow_balance import flow_rows, left_after_loss
from solver.model.formulation.frame import Carrier, Frame
from solver.model.rows import CountRow, LoadRow, LossRow, Row
from solver.model.solvers.linear_program import Simplex
from solver.model.solvers.linear_rows import Program, Term, Writer

Amount = tuple[list[Term], float]
"""A sum over columns and a constant [kg or L]."""

_ROOM = 1.0 + 1e-9
"""What an upper bound that follows from a sum is raised by, so that rounding cannot cut it [1]."""


@dataclass(slots=True)
class Master:
    """The linear model and its columns; kept between goals, which only change its objective.

    `rides` are the columns of the rides that are not settled, `settled` the units of the others;
    `trip_peak` and `peak` columns of fractions. `impossible` names the rule that cannot be kept
    whatever rides are chosen. `steady`, `seed` and `should_stop` say how its solves are run.
    """

    frame: Frame
    writer: Writer
    rides: dict[tuple[int, int], int] = field(default_factory=dict)
    settled: dict[tuple[int, int], int] = field(default_factory=dict)
    trip_peak: list[int] = field(default_factory=list)
    peak: int = 0
    impossible: str | None = None
    excess: list[tuple[LoadRow, int]] | None = None
    short: dict[Row, int] | None = None
    steady: bool = False
    seed: int = 1
    should_stop: Callable[[], bool] | None = None
    _simplex: Simplex | None = None

    @property
    def simplex(self) -> Simplex:
        """The program with all columns divisible, and where its last solve ended."""
        if self._simplex is None:
            self._simplex = Simplex.of(self.writer.program())
        return self._simplex

    @property
    def program(self) -> Program:
        """The rows as arrays."""
        return self.simplex.program


def build_master(
    frame: Frame,
    *,
    with_excess: bool = False,
    with_shortage: bool = False,
    steady: bool = False,
    seed: int = 1,
    should_stop: Callable[[], bool] | None = None,
) -> Master:
    """Write the rows of a frame with loads as amounts.

    `with_excess` lets every load pass its cap by an amount of its own, kept in `excess`, to
    find out how much is missing where there is no plan; `with_shortage` lets every row on
    what must be somewhere fall short by an amount of its own, kept in `short`. A `steady`
    relaxation counts the steps of its search instead of the time.
    """
    writer = Writer()
    trips = frame.world.timeline.trips
    master = Master(
        frame=frame,
        writer=writer,
        trip_peak=[writer.column(1.0) for _ in trips],
        peak=writer.column(1.0),
        excess=[] if with_excess else None,
        short={} if with_shortage else None,
        steady=steady,
        seed=seed,
        should_stop=should_stop,
    )
    _add_rides(master)
    _add_flows(master)
    _add_whole_losses(master)
    for trip in range(len(trips)):
        _add_trip(master, trip)
        writer.row([(master.peak, 1.0), (master.trip_peak[trip], -1.0)], lower=0.0)
    return master


def _add_rides(master: Master) -> None:
    frame = master.frame
    for cargo, its_trips in enumerate(frame.opened):
        count = frame.world.cargo[cargo].count
        for trip in its_trips:
            if (cargo, trip) not in frame.settled:
                master.rides[cargo, trip] = master.writer.column(float(count), whole=True)
                continue
            master.settled[cargo, trip] = count
            if not frame.may_carry[cargo, trip]:
                master.impossible = "units_ride_with_people"


def _add_flows(master: Master) -> None:
    for row in flow_rows(master.frame):
        fixed = row.constant
        loose: list[Term] = []
        for ride, factor in row.terms:
            if ride in master.settled:
                fixed += factor * master.settled[ride]
            else:
                loose.append((master.rides[ride], float(factor)))
        if master.short is not None and row.about is not None:
            loose.append((_shortage(master, row.about), _carriers(master.frame, row.about)))
        if loose:
            master.writer.row(loose, lower=float(-fixed))
        elif fixed < 0:
            master.impossible = master.impossible or row.rule_id


def _add_whole_losses(master: Master) -> None:
    """No unit rides whose loss alone would be too much: one carrier must have it whole.

    The rows on flows share what rides out among all carriers at will; a unit that counts for
    much, such as a large can, cannot be shared.
    """
    frame = master.frame
    for row in (row for rows in frame.spread_rows for row in rows):
        if not isinstance(row, LossRow):
            continue
        heavy = [
            (cargo, weight)
            for cargo, weight in row.terms
            if weight > 1 and ((cargo, row.trip) in master.rides or _rides(master, cargo, row.trip))
        ]
        if not heavy:
            continue
        room = left_after_loss(frame, row)
        left: dict[int, float] = defaultdict(float)
        constant = room.constant
        for ride, factor in room.terms:
            if ride in master.rides:
                left[master.rides[ride]] += factor
            else:
                constant += factor * master.settled[ride]
        if master.short is not None:
            left[_shortage(master, row)] += 1.0
        for cargo, weight in heavy:
            _add_whole_loss(master, (cargo, row.trip), weight, left, constant)


def _rides(master: Master, cargo: int, trip: int) -> bool:
    """Whether units of a cargo surely ride on a trip."""
    return master.settled.get((cargo, trip), 0) > 0


def _add_whole_loss(
    master: Master, ride: tuple[int, int], weight: int, left: dict[int, float], constant: int
) -> None:
    """What is `left` without a carrier is at least one unit of a ride, as soon as any rides."""
    terms = dict(left)
    if ride in master.settled:
        constant -= weight
    else:
        count = master.frame.world.cargo[ride[0]].count
        any_rides = units = master.rides[ride]
        if count > 1:
            any_rides = master.writer.column(1.0, whole=True)
            master.writer.row([(any_rides, float(count)), (units, -1.0)], lower=0.0)
        terms[any_rides] = terms.get(any_rides, 0.0) - weight
    master.writer.row(terms.items(), lower=float(-constant))


def _shortage(master: Master, row: Row) -> int:
    """By how much a row falls short, in its own unit."""
    assert master.short is not None  # noqa: S101 (the caller asked)
    if row not in master.short:
        master.short[row] = master.writer.column()
    return master.short[row]


def _carriers(frame: Frame, row: Row) -> float:
    """How often a row counts in its flow: rows on one carrier are summed over all."""
    return float(len(frame.carriers[row.trip])) if isinstance(row, LossRow | CountRow) else 1.0


def _add_trip(master: Master, trip: int) -> None:
    """Amounts of mass and volume in each carrier of a trip, and the rows on them."""
    frame = master.frame
    in_mass, in_volume = (_amounts(master, trip, of_mass=of_mass) for of_mass in (True, False))
    for row in frame.load_rows[trip]:
        terms: list[Term] = []
        constant = row.fixed / 1000
        for carrier in frame.carriers[trip]:
            if carrier.person_id != row.person_id:
                continue
            if not (row.in_sled if carrier.is_sled else row.in_pack):
                continue
            more, fixed = (in_mass if row.of_mass else in_volume)[carrier.carrier_id]
            terms += more
            constant += fixed
        cap = row.cap / 1000
        if row.in_fraction:
            terms.append((master.trip_peak[trip], -cap))
            cap = 0.0
        if master.excess is not None:
            over = master.writer.column()
            master.excess.append((row, over))
            terms.append((over, -1.0))
        master.writer.row(terms, upper=cap - constant)


def _amounts(master: Master, trip: int, *, of_mass: bool) -> dict[str, Amount]:
    """What each carrier of a trip has, by its id."""
    frame, writer = master.frame, master.writer
    amount: dict[str, Amount] = defaultdict(lambda: ([], 0.0))
    groups: dict[tuple[Carrier, ...], list[int]] = defaultdict(list)
    for cargo in frame.riders[trip]:
        groups[frame.may_carry[cargo, trip]].append(cargo)
    for able, cargoes in groups.items():
        terms: list[Term] = []
        constant = most = 0.0
        for cargo in cargoes:
            weight = frame.weight(cargo, trip, of_mass=of_mass) / 1000
            if not weight:
                continue
            most += weight * frame.world.cargo[cargo].count
            if (cargo, trip) in master.settled:
                constant += weight * master.settled[cargo, trip]
            else:
                terms.append((master.rides[cargo, trip], weight))
        if not most:
            continue
        if len(able) == 1:
            had, fixed = amount[able[0].carrier_id]
            amount[able[0].carrier_id] = ([*had, *terms], fixed + constant)
            continue
        for carrier in able:
            share = writer.column(most * _ROOM)
            amount[carrier.carrier_id][0].append((share, 1.0))
            terms.append((share, -1.0))
        writer.row(terms, lower=-constant, upper=-constant)
    return amount
