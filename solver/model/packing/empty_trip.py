"""A trip's units, carriers and rows read into arrays."""

from __future__ import annotations

import numpy as np

from solver.model.formulation.frame import Frame
from solver.model.formulation.spread_slack import Slack
from solver.model.packing.trip_load import Bools, Ints, TripLoad
from solver.model.rows import spread_weights
from solver.quantities import FRACTION_GRID


def empty_trip(frame: Frame, trip: int, riding: dict[int, int], slack: Slack) -> TripLoad:
    """A trip with the units that ride on it (cargo → units), none of them put anywhere yet."""
    carriers, rows = frame.carriers[trip], frame.load_rows[trip]
    cargo = np.repeat(np.array(sorted(riding), dtype=np.int64), [riding[i] for i in sorted(riding)])
    spread = _binding(frame, trip, riding, slack)
    return TripLoad(
        carriers=tuple(carrier.carrier_id for carrier in carriers),
        cargo=cargo,
        mass=_weights(frame, trip, cargo, of_mass=True),
        volume=_weights(frame, trip, cargo, of_mass=False),
        able=_able(frame, trip, riding),
        where=np.full(len(cargo), -1, dtype=np.int64),
        load=np.array([*(row.fixed for row in rows), 0], dtype=np.int64),
        cap=np.array([*(row.cap for row in rows), 2**40], dtype=np.int64),
        scale=np.array(
            [*(FRACTION_GRID / max(r.cap, 1) if r.in_fraction else 0.0 for r in rows), 0.0]
        ),
        share=np.array([*(FRACTION_GRID / max(row.cap, 1) for row in rows), 0.0]),
        of_mass=np.array([*(row.of_mass for row in rows), True]),
        rows_of=_rows_of(frame, trip),
        member=np.array(
            [[weights.get(i, 0) for i in cargo.tolist()] for weights, _ in spread], dtype=np.int64
        ).reshape(len(spread), len(cargo)),
        counted=np.zeros((len(spread), len(carriers)), dtype=np.int64),
        most=np.array([most for _, most in spread], dtype=np.int64),
    )


def _able(frame: Frame, trip: int, riding: dict[int, int]) -> Bools:
    """Which carriers may take each piece (P, C)."""
    number = {carrier.carrier_id: at for at, carrier in enumerate(frame.carriers[trip])}
    cargo = sorted(riding)
    able = np.zeros((len(cargo), len(number)), dtype=bool)
    for at, index in enumerate(cargo):
        able[at, [number[one.carrier_id] for one in frame.may_carry[index, trip]]] = True
    pieces: Bools = np.repeat(able, [riding[index] for index in cargo], axis=0)
    if any(frame.pinned(index, trip) for index in cargo):
        _pin(frame, trip, riding, pieces)
    return pieces


def _pin(frame: Frame, trip: int, riding: dict[int, int], able: Bools) -> None:
    """Leave pieces that are pinned their own carrier only: the first pieces of their cargo."""
    number = {carrier.carrier_id: at for at, carrier in enumerate(frame.carriers[trip])}
    first = 0
    for cargo in sorted(riding):
        piece, last = first, first + riding[cargo]
        for carrier_id, units in frame.pinned(cargo, trip).items():
            able[piece : min(piece + units, last)] = np.arange(len(number)) == number[carrier_id]
            piece = min(piece + units, last)
        first = last


def _rows_of(frame: Frame, trip: int) -> Ints:
    """The load rows that each carrier belongs to (C, most rows), padded with an empty row."""
    rows = frame.load_rows[trip]
    rows_of = [
        [
            index
            for index, row in enumerate(rows)
            if row.person_id == carrier.person_id
            and (row.in_sled if carrier.is_sled else row.in_pack)
        ]
        for carrier in frame.carriers[trip]
    ]
    widest = max((len(its_rows) for its_rows in rows_of), default=0)
    padded = [its_rows + [len(rows)] * (max(widest, 1) - len(its_rows)) for its_rows in rows_of]
    return np.array(padded, dtype=np.int64).reshape(len(rows_of), max(widest, 1))


def _binding(
    frame: Frame, trip: int, riding: dict[int, int], slack: Slack
) -> list[tuple[dict[int, int], int]]:
    """The spread rows that could be broken: weights by cargo, and what a carrier may hold."""
    weighted = (
        (spread_weights(row), most)
        for row, most in zip(frame.spread_rows[trip], slack, strict=True)
    )
    return [
        (weights, most)
        for weights, most in weighted
        if sum(weight * riding.get(i, 0) for i, weight in weights.items()) > most
    ]


def _weights(frame: Frame, trip: int, cargo: Ints, *, of_mass: bool) -> Ints:
    weight = {i: frame.weight(i, trip, of_mass=of_mass) for i in set(cargo.tolist())}
    return np.array([weight[i] for i in cargo.tolist()], dtype=np.int64)
