"""The carrier model in one piece on CP-SAT: rides and carriers of everything at once.

Variables, all whole: y[i,t] units of cargo i on trip t; n[i,t,c] of them in carrier c;
z[t] the largest load fraction of trip t [1/10,000]; Z the largest of all.

It is exact and plain, and the reference that faster ways of solving are held against.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from solver.model.cp_sat import cp_model
from solver.model.formulation.flow_balance import left_after_loss
from solver.model.formulation.flow_row import FlowRow
from solver.model.formulation.flow_rows import flow_rows
from solver.model.formulation.frame import Frame
from solver.model.rows import ApartRow, CountRow, SpreadRow, spread_weights
from solver.quantities import FRACTION_GRID, fraction_up

Whole = cp_model.LinearExprT

MOST_EASED = 10**7
"""More than any carrier holds, in any unit [1]."""


@dataclass(slots=True)
class OnePiece:
    """The model with its variables; `impossible` names a rule that fails whatever is chosen.

    `eased` are what carriers may hold too much by rows that may be broken, each with its rule.
    """

    model: cp_model.CpModel
    rides: dict[tuple[int, int], Whole]
    carried: dict[tuple[int, int, str], Whole]
    trip_peak: list[cp_model.IntVar]
    peak: cp_model.IntVar
    impossible: str | None = None
    eased: list[tuple[str, cp_model.IntVar]] = field(default_factory=list)


def build_one_piece(frame: Frame, *, eased: bool = False) -> OnePiece:
    """Write all rows of a frame as one model; the objective is left to the caller.

    The rows on sharing units out may be `eased`, each by an amount of its own.
    """
    model = cp_model.CpModel()
    trips = frame.world.timeline.trips
    piece = OnePiece(
        model=model,
        rides={},
        carried={},
        trip_peak=[model.new_int_var(0, FRACTION_GRID, f"z{t.index}") for t in trips],
        peak=model.new_int_var(0, FRACTION_GRID, "peak"),
    )
    _add_rides(frame, piece)
    for trip in range(len(trips)):
        _add_loads(frame, piece, trip)
        _add_spread(frame, piece, trip, eased=eased)
        model.add(piece.peak >= piece.trip_peak[trip])
    return piece


def _add_rides(frame: Frame, piece: OnePiece) -> None:
    """Rides within their stocks, and the carriers that share them out."""
    model = piece.model
    for cargo, its_trips in enumerate(frame.allowed_trips):
        count = frame.world.cargo[cargo].count
        for trip in its_trips:
            able = frame.may_carry[cargo, trip]
            if (cargo, trip) in frame.settled:
                piece.rides[cargo, trip] = count
                if not able:
                    piece.impossible = "units_ride_with_people"
            else:
                piece.rides[cargo, trip] = model.new_int_var(0, count, f"y{cargo}.{trip}")
            if len(able) == 1:
                piece.carried[cargo, trip, able[0].carrier_id] = piece.rides[cargo, trip]
                continue
            parts = _parts(frame, piece, cargo, trip)
            model.add(cp_model.LinearExpr.sum(parts) == piece.rides[cargo, trip])
    for row in flow_rows(frame):
        free = [(piece.rides[ride], factor) for ride, factor in row.terms]
        fixed = row.constant + sum(y * f for y, f in free if isinstance(y, int))
        loose = [(y, f) for y, f in free if not isinstance(y, int)]
        if loose:
            exprs, factors = zip(*loose, strict=True)
            model.add(cp_model.LinearExpr.weighted_sum(exprs, factors) + fixed >= 0)
        elif fixed < 0:
            piece.impossible = piece.impossible or row.rule_id


def _parts(frame: Frame, piece: OnePiece, cargo: int, trip: int) -> list[cp_model.IntVar]:
    """Units of a cargo in each carrier that may take them, no fewer than are pinned there."""
    count, pinned = frame.world.cargo[cargo].count, frame.pinned(cargo, trip)
    parts = []
    for carrier in frame.may_carry[cargo, trip]:
        part = piece.model.new_int_var(0, count, f"n{cargo}.{trip}.{carrier.carrier_id}")
        piece.carried[cargo, trip, carrier.carrier_id] = part
        if least := pinned.get(carrier.carrier_id):
            piece.model.add(part >= least)
        parts.append(part)
    return parts


def _add_loads(frame: Frame, piece: OnePiece, trip: int) -> None:
    for row in frame.load_rows[trip]:
        exprs: list[Whole] = []
        factors: list[int] = []
        for cargo in frame.allowed_cargo[trip]:
            weight = frame.weight(cargo, trip, of_mass=row.of_mass)
            for carrier in frame.may_carry[cargo, trip]:
                taken = row.in_sled if carrier.is_sled else row.in_pack
                if weight and taken and carrier.person_id == row.person_id:
                    exprs.append(piece.carried[cargo, trip, carrier.carrier_id])
                    factors.append(weight)
        load = cp_model.LinearExpr.weighted_sum(exprs, factors) + row.fixed
        if row.in_fraction:
            if row.cap == 0 and row.fixed > 0:
                piece.impossible = piece.impossible or row.rule_id
                continue
            piece.model.add(FRACTION_GRID * load <= row.cap * piece.trip_peak[trip])
            least = fraction_up(load_g=row.fixed, cap_g=row.cap)
            piece.model.add(piece.trip_peak[trip] >= least)
        else:
            piece.model.add(load <= row.cap)


def _add_spread(frame: Frame, piece: OnePiece, trip: int, *, eased: bool) -> None:
    """Rows on sharing units out among carriers."""
    for row in frame.spread_rows[trip]:
        weights = {
            cargo: weight
            for cargo, weight in spread_weights(row).items()
            if (cargo, trip) in piece.rides
        }
        if not weights:
            continue
        if isinstance(row, ApartRow):
            _add_apart(frame, piece, row, list(weights), eased=eased)
            continue
        if isinstance(row, CountRow):
            most = FlowRow(row.rule_id, (), row.at_most)
        else:
            most = left_after_loss(frame, row)
        slack = cp_model.LinearExpr.weighted_sum(
            [piece.rides[ride] for ride, _ in most.terms], [factor for _, factor in most.terms]
        )
        for carrier in frame.carriers[trip]:
            parts = [
                (piece.carried[cargo, trip, carrier.carrier_id], weight)
                for cargo, weight in weights.items()
                if (cargo, trip, carrier.carrier_id) in piece.carried
            ]
            taken = cp_model.LinearExpr.weighted_sum([v for v, _ in parts], [w for _, w in parts])
            counted = _eased(piece, taken, row) if eased else taken
            piece.model.add(counted <= slack + most.constant)


def _eased(piece: OnePiece, held: Whole, row: SpreadRow) -> Whole:
    """What a carrier holds, less what it may hold too much by one row."""
    more = piece.model.new_int_var(0, MOST_EASED, "")
    piece.eased.append((row.rule_id, more))
    return cp_model.LinearExpr.weighted_sum([held, more], [1, -1])


def _add_apart(
    frame: Frame, piece: OnePiece, row: ApartRow, riding: list[int], *, eased: bool
) -> None:
    """The two shapes of an ApartRow, on the cargoes of it that may ride."""
    model, trip = piece.model, row.trip
    most = sum(frame.world.cargo[cargo].count for cargo in riding)
    if most < 2:
        return
    total = cp_model.LinearExpr.sum([piece.rides[cargo, trip] for cargo in riding])
    several = model.new_bool_var(f"several{trip}.{row.rule_id}.{row.cargoes}")
    if not row.half:
        model.add(total >= 2 * several)
        model.add(total <= 1 + (most - 1) * several)
    for carrier in frame.carriers[trip]:
        mine = [
            piece.carried[cargo, trip, carrier.carrier_id]
            for cargo in riding
            if (cargo, trip, carrier.carrier_id) in piece.carried
        ]
        if mine:
            held: Whole = cp_model.LinearExpr.sum(mine)
            if eased:
                held = _eased(piece, held, row)
            if row.half:
                model.add(2 * held <= total + 1)
            else:
                model.add(held <= total - several)
