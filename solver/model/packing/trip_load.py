"""One trip's loads: units put into packs and on sleds, and the fractions that they make.

Given which units ride, trips do not touch each other: each is a question of sharing units
out among carriers under the trip's own rows. Everything is held as arrays, so that one piece
is weighed in all carriers at once.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from solver.model.formulation.frame import Frame
from solver.model.rows import spread_weights
from solver.quantities import FRACTION_GRID

Floats = npt.NDArray[np.float64]
Ints = npt.NDArray[np.int64]
Bools = npt.NDArray[np.bool_]

Room = tuple[int, ...]
"""What one carrier may hold at most by each spread row of a trip; see `stock.rooms`."""

TOO_MUCH = 10**9
"""Load fractions from here on stand for a broken hard limit."""


@dataclass(slots=True)
class TripLoad:
    """A trip with P pieces, C carriers, R rows (and an empty one that pads) and S spread rows.

    `load`, `cap`, `scale`, `of_mass` are (R + 1,), amounts in g or mL; `scale` is 0 on rows that
    do not count in the load fraction, `share` never. `rows_of` is (C, most
    rows of a carrier); `able` (P, C); `where` (P,) the carrier of each piece or −1; `member`
    (S, P) is what each piece counts in a spread row, `held` (S, C) their sums, `most` (S,) what
    one carrier may hold.
    """

    carriers: tuple[str, ...]
    cargo: Ints
    mass: Ints
    volume: Ints
    able: Bools
    where: Ints
    load: Ints
    cap: Ints
    scale: Floats
    share: Floats
    of_mass: Bools
    rows_of: Ints
    member: Ints
    held: Ints
    most: Ints

    @property
    def has_choice(self) -> Bools:
        """Which pieces may go into more than one carrier (P,)."""
        choice: Bools = self.able.sum(axis=1) > 1
        return choice

    def fullness(self, amount: Ints, rows: Ints) -> Floats:
        """Load fractions of rows at some amounts.

        Beyond a cap it is TOO_MUCH and the excess, so that less excess counts as better.
        """
        over = amount - self.cap[rows]
        full: Floats = np.where(over > 0, TOO_MUCH + over, amount * self.scale[rows])
        return full

    def levels(self) -> Floats:
        """Each row's load fraction as it stands (R + 1,)."""
        return self.fullness(self.load, np.arange(len(self.load)))

    def levels_with(self, piece: int, *, all_rows: bool = False) -> Floats:
        """Each carrier's fullest row with a piece more (C,), infinite where it may not go.

        With `all_rows`, rows outside the load fraction, such as volumes, count alike.
        """
        rows = self.rows_of
        more = np.where(self.of_mass[rows], self.mass[piece], self.volume[piece])
        amount = self.load[rows] + more
        full = amount * self.share[rows] if all_rows else self.fullness(amount, rows)
        level = full.max(axis=1)
        allowed = self.able[piece].copy()
        for row in np.flatnonzero(self.member[:, piece]):
            allowed &= self.held[row] + self.member[row, piece] <= self.most[row]
        return np.where(allowed, level, np.inf)

    def put(self, piece: int, carrier: int) -> None:
        """Put a piece into a carrier, out of the one where it was."""
        for sign, place in ((-1, int(self.where[piece])), (1, carrier)):
            if place < 0:
                continue
            rows = self.rows_of[place]
            self.load[rows] += sign * np.where(
                self.of_mass[rows], self.mass[piece], self.volume[piece]
            )
            self.load[-1] = 0
            self.held[:, place] += sign * self.member[:, piece]
        self.where[piece] = carrier

    def peak(self) -> int:
        """The largest load fraction of the trip rounded up, TOO_MUCH when a limit is broken."""
        if (self.load > self.cap).any() or (self.held > self.most[:, None]).any():
            return TOO_MUCH
        counted = self.scale > 0
        up = -(-self.load[counted] * FRACTION_GRID // self.cap[counted])
        return int(up.max(initial=0))

    def carried(self, trip: int) -> dict[tuple[int, int, str], int]:
        """The units by (cargo, trip, carrier)."""
        pairs = zip(self.cargo.tolist(), self.where.tolist(), strict=True)
        return {(i, trip, self.carriers[c]): n for (i, c), n in Counter(pairs).items()}


def empty_trip(frame: Frame, trip: int, riding: dict[int, int], room: Room) -> TripLoad:
    """A trip with the units that ride on it (cargo → units), none of them put anywhere yet."""
    carriers, rows = frame.carriers[trip], frame.load_rows[trip]
    number = {carrier.carrier_id: index for index, carrier in enumerate(carriers)}
    cargo = np.repeat(np.array(sorted(riding), dtype=np.int64), [riding[i] for i in sorted(riding)])
    able_of = {
        i: [number[carrier.carrier_id] for carrier in frame.may_carry[i, trip]] for i in riding
    }
    able = np.zeros((len(cargo), len(carriers)), dtype=bool)
    for piece, index in enumerate(cargo.tolist()):
        able[piece, able_of[index]] = True
    rows_of = [
        [
            index
            for index, row in enumerate(rows)
            if row.person_id == carrier.person_id
            and (row.in_sled if carrier.is_sled else row.in_pack)
        ]
        for carrier in carriers
    ]
    widest = max((len(its_rows) for its_rows in rows_of), default=0)
    padded = [its_rows + [len(rows)] * (max(widest, 1) - len(its_rows)) for its_rows in rows_of]
    spread = []
    for row, most in zip(frame.spread_rows[trip], room, strict=True):
        weights = spread_weights(row)
        if sum(weights.get(i, 0) * units for i, units in riding.items()) > most:
            spread.append(([weights.get(i, 0) for i in cargo.tolist()], most))
    return TripLoad(
        carriers=tuple(carrier.carrier_id for carrier in carriers),
        cargo=cargo,
        mass=_weights(frame, trip, cargo, of_mass=True),
        volume=_weights(frame, trip, cargo, of_mass=False),
        able=able,
        where=np.full(len(cargo), -1, dtype=np.int64),
        load=np.array([*(row.fixed for row in rows), 0], dtype=np.int64),
        cap=np.array([*(row.cap for row in rows), 2**40], dtype=np.int64),
        scale=np.array(
            [*(FRACTION_GRID / max(r.cap, 1) if r.in_fraction else 0.0 for r in rows), 0.0]
        ),
        share=np.array([*(FRACTION_GRID / max(row.cap, 1) for row in rows), 0.0]),
        of_mass=np.array([*(row.of_mass for row in rows), True]),
        rows_of=np.array(padded, dtype=np.int64).reshape(len(carriers), max(widest, 1)),
        member=np.array([weights for weights, _ in spread], dtype=np.int64).reshape(
            len(spread), len(cargo)
        ),
        held=np.zeros((len(spread), len(carriers)), dtype=np.int64),
        most=np.array([most for _, most in spread], dtype=np.int64),
    )


def _weights(frame: Frame, trip: int, cargo: Ints, *, of_mass: bool) -> Ints:
    weight = {i: frame.weight(i, trip, of_mass=of_mass) for i in set(cargo.tolist())}
    return np.array([weight[i] for i in cargo.tolist()], dtype=np.int64)


def longest_first(load: TripLoad, *, all_rows: bool = False) -> bool:
    """Put the heaviest piece first, each where the fraction grows least; whether all went in.

    R. L. Graham, "Bounds on multiprocessing timing anomalies", SIAM J. Appl. Math. 17 (1969),
    with fractions of own caps for times. Pieces without a choice go first, those already put
    somewhere stay; a piece that fits nowhere is put anywhere, and the answer is False. With
    `all_rows`, room counts like mass, which fills tight trips better.
    """
    choice = load.has_choice
    waiting = np.flatnonzero(load.where < 0)
    keys = (waiting, -load.volume[waiting], -load.mass[waiting], choice[waiting])
    fits = True
    for piece in waiting[np.lexsort(keys)].tolist():
        level = load.levels_with(piece, all_rows=all_rows)
        carrier = int(level.argmin())
        if not np.isfinite(level[carrier]):
            fits, carrier = False, int(load.able[piece].argmax())
        load.put(piece, carrier)
    return fits and load.peak() < TOO_MUCH


def packed_trip(frame: Frame, trip: int, riding: dict[int, int], room: Room) -> TripLoad:
    """A trip packed longest first by mass, and by all that is limited where that does not fit."""
    load = empty_trip(frame, trip, riding, room)
    if longest_first(load):
        return load
    other = empty_trip(frame, trip, riding, room)
    longest_first(other, all_rows=True)
    return other if other.levels().max() < load.levels().max() else load
