"""The carrier model in one piece for MIP solvers: the rows of a frame, as CP-SAT gets them.

The same rides, carriers and rows as solver/model/one_piece.py; only the load fraction of each
trip is left out, since the least peak needs none between the loads and the peak.
"""

from __future__ import annotations

from solver.model.assignment.draft import Draft
from solver.model.formulation.flow_balance import left_after_loss
from solver.model.formulation.flow_row import FlowRow
from solver.model.formulation.flow_rows import flow_rows
from solver.model.formulation.frame import Frame
from solver.model.rows import ApartRow, CountRow
from tests.benchmarks.race_models import Amount, RaceModel, Replay

Carried = dict[tuple[int, int, str], Amount]
"""Units by (cargo, trip, carrier), chosen or known."""


def write_one_piece(frame: Frame, model: RaceModel) -> Carried | None:
    """Write the rows down; None when some row fails whatever is chosen."""
    rides: dict[tuple[int, int], Amount] = {}
    carried: Carried = {}
    for cargo, its_trips in enumerate(frame.allowed_trips):
        count = frame.world.cargo[cargo].count
        for trip in its_trips:
            able = frame.may_carry[cargo, trip]
            settled = (cargo, trip) in frame.settled
            if not able:
                return None
            ride: Amount = count if settled else model.whole(count)
            rides[cargo, trip] = ride
            if len(able) == 1:
                carried[cargo, trip, able[0].carrier_id] = ride
                continue
            parts = {carrier.carrier_id: model.whole(count) for carrier in able}
            carried |= {(cargo, trip, carrier): part for carrier, part in parts.items()}
            every = [(part, 1) for part in parts.values()]
            model.add_count([*every, (ride, -1)], at_least=0, exactly=True)
    for row in flow_rows(frame):
        terms = [(rides[ride], factor) for ride, factor in row.terms]
        model.add_count(terms, at_least=-row.constant)
    for trip in range(len(frame.world.timeline.trips)):
        _write_loads(frame, model, carried, trip)
        _write_apart(frame, model, rides, carried, trip)
    return carried


def _write_loads(frame: Frame, model: RaceModel, carried: Carried, trip: int) -> None:
    for row in frame.load_rows[trip]:
        terms = [
            (carried[cargo, trip, carrier.carrier_id], weight)
            for cargo in frame.allowed_cargo[trip]
            if (weight := frame.weight(cargo, trip, of_mass=row.of_mass))
            for carrier in frame.may_carry[cargo, trip]
            if carrier.person_id == row.person_id
            and (row.in_sled if carrier.is_sled else row.in_pack)
        ]
        model.add_load(terms, fixed=row.fixed, cap=row.cap, in_fraction=row.in_fraction)


def _write_apart(
    frame: Frame,
    model: RaceModel,
    rides: dict[tuple[int, int], Amount],
    carried: Carried,
    trip: int,
) -> None:
    """Rows on sharing units out among carriers; see the spread rows for their shapes."""
    for row in frame.spread_rows[trip]:
        if isinstance(row, ApartRow):
            _write_kind_apart(frame, model, rides, carried, row)
            continue
        if isinstance(row, CountRow):
            room = FlowRow(row.rule_id, (), row.at_most)
        else:
            room = left_after_loss(frame, row)
        least = [(rides[ride], factor) for ride, factor in room.terms]
        for carrier in frame.carriers[trip]:
            mine = [
                (carried[key], -weight)
                for cargo, weight in row.terms
                if (key := (cargo, trip, carrier.carrier_id)) in carried
            ]
            if mine:
                model.add_count([*least, *mine], at_least=-room.constant)


def _write_kind_apart(
    frame: Frame,
    model: RaceModel,
    rides: dict[tuple[int, int], Amount],
    carried: Carried,
    row: ApartRow,
) -> None:
    """The two shapes of an ApartRow."""
    trip = row.trip
    riding = [cargo for cargo in row.cargoes if (cargo, trip) in rides]
    most = sum(frame.world.cargo[cargo].count for cargo in riding)
    if most < 2:
        return
    total = [(rides[cargo, trip], 1) for cargo in riding]
    several: Amount = 0
    if not row.half:
        several = model.whole(1)
        fewer = [(units, -1) for units, _ in total]
        model.add_count([(several, most - 1), *fewer], at_least=-1)
    for carrier in frame.carriers[trip]:
        mine = [
            (carried[key], -2 if row.half else -1)
            for cargo in riding
            if (key := (cargo, trip, carrier.carrier_id)) in carried
        ]
        if mine:
            model.add_count([*total, *mine, (several, -1)], at_least=-1 if row.half else 0)


def read_mip_draft(frame: Frame, values: list[int]) -> Draft:
    """The assignment that the values of the whole variables stand for, in order of writing."""
    carried = write_one_piece(frame, Replay(values)) or {}
    return Draft({key: units for key, units in carried.items() if units})
