"""Swap search: bringing one trip's largest load fraction down, move by move.

As long as the fullest row can be relieved, a piece leaves it for another carrier, or changes
places with a smaller one there, whichever leaves the worst of the rows touched least full.
All moves of a piece are weighed at once, as arrays.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from solver.model.packing import TOO_MUCH, TripLoad
from solver.quantities import FRACTION_GRID

Floats = npt.NDArray[np.float64]
Ints = npt.NDArray[np.int64]
Bools = npt.NDArray[np.bool_]


def lower_peak(load: TripLoad, *, target: int, most_moves: int = 400) -> int:
    """Move and swap until the peak is at the target or nothing helps; the peak reached."""
    if load.peak() <= target or not any(len(piece.able) > 1 for piece in load.pieces):
        return load.peak()
    board = _lay_out(load)
    for _ in range(most_moves):
        full = board.fullness(board.load, np.arange(len(board.load)))
        if full.max() <= target or not board.relieve(int(full.argmax())):
            break
    for index, carrier in enumerate(board.where):
        if carrier != load.where[index]:
            load.put(index, int(carrier))
    return load.peak()


@dataclass(slots=True)
class _Board:
    """The trip as arrays: P pieces, C carriers, R rows and one empty row for padding.

    `rows_of` is (C, most rows of a carrier); `able` (P, C); `member` (S, P) tells the pieces
    of each of the S apart rows, `held` (S, C) counts them, `most` (S,) is what one carrier may
    hold. Amounts are [g] on mass rows and [mL] on volume rows.
    """

    load: Floats
    cap: Floats
    scale: Floats
    of_mass: Bools
    rows_of: Ints
    mass: Floats
    volume: Floats
    where: Ints
    able: Bools
    kind: Ints
    member: Bools
    held: Ints
    most: Ints

    def fullness(self, amount: Floats, rows: Ints) -> Floats:
        """Load fractions of rows at some amounts, with the excess where a cap is passed."""
        over = amount - self.cap[rows]
        return np.where(over > 0, TOO_MUCH + over, amount * self.scale[rows])

    def relieve(self, fullest: int) -> bool:
        """Make the best move or swap that takes load off a row; whether there was one."""
        homes = np.flatnonzero((self.rows_of == fullest).any(axis=1))
        peak = self.fullness(self.load[[fullest]], np.array([fullest]))[0]
        choice = self.able.sum(axis=1) > 1
        leaving = self._one_of_each(np.flatnonzero(choice & np.isin(self.where, homes)))
        others = self._one_of_each(np.flatnonzero(choice & ~np.isin(self.where, homes)))
        free = np.setdiff1d(np.arange(len(self.rows_of)), homes)
        partner = np.concatenate([others, np.full(len(free), -1)])
        place = np.concatenate([self.where[others], free])
        best, move = peak - 1e-9, None
        for piece in leaving:
            worst = self._worst(int(piece), partner, place)
            if len(worst) and worst.min() < best:
                best = worst.min()
                at = int(worst.argmin())
                move = (int(piece), int(place[at]), int(partner[at]))
        if move is None:
            return False
        piece, carrier, other = move
        home = int(self.where[piece])
        self._put(piece, carrier)
        if other >= 0:
            self._put(other, home)
        return True

    def _one_of_each(self, pieces: Ints) -> Ints:
        """One piece of each kind in each carrier: the others would do the same."""
        if not len(pieces):
            return pieces
        _, first = np.unique(
            np.stack([self.kind[pieces], self.where[pieces]]), axis=1, return_index=True
        )
        return pieces[np.sort(first)]

    def _worst(self, piece: int, partner: Ints, place: Ints) -> Floats:
        """The fullest row touched by each exchange of a piece, infinite where it may not be."""
        home = self.where[piece]
        real = partner >= 0
        mass = self.mass[piece] - np.where(real, self.mass[partner], 0.0)
        volume = self.volume[piece] - np.where(real, self.volume[partner], 0.0)
        here = np.broadcast_to(self.rows_of[home], (len(place), self.rows_of.shape[1]))
        there = self.rows_of[place]
        shared = (here[:, :, None] == there[:, None, :]).any(axis=2)
        shift_here = np.where(self.of_mass[here], mass[:, None], volume[:, None])
        shift_there = np.where(self.of_mass[there], mass[:, None], volume[:, None])
        after_here = self.load[here] - np.where(shared, 0.0, shift_here)
        shared_there = (there[:, :, None] == here[:, None, :]).any(axis=2)
        after_there = self.load[there] + np.where(shared_there, 0.0, shift_there)
        worst = np.maximum(
            self.fullness(after_here, here).max(axis=1),
            self.fullness(after_there, there).max(axis=1),
        )
        allowed = self.able[piece, place] & (~real | self.able[partner, home])
        allowed &= (mass > 0) | (volume > 0)
        for row in range(len(self.most)):
            mine = self.member[row, piece]
            theirs = real & self.member[row, partner]
            to_place = self.held[row, place] + mine - theirs.astype(np.int64)
            to_home = self.held[row, home] - mine + theirs.astype(np.int64)
            allowed &= ~mine | (to_place <= self.most[row])
            allowed &= ~theirs | (to_home <= self.most[row])
        return np.where(allowed, worst, np.inf)

    def _put(self, piece: int, carrier: int) -> None:
        for sign, place in ((-1.0, self.where[piece]), (1.0, carrier)):
            rows = self.rows_of[place]
            shift = np.where(self.of_mass[rows], self.mass[piece], self.volume[piece])
            self.load[rows] += sign * shift
            self.load[-1] = 0.0
            self.held[:, place] += int(sign) * self.member[:, piece]
        self.where[piece] = carrier


def _lay_out(load: TripLoad) -> _Board:
    rows, carriers, pieces = load.rows, len(load.carriers), load.pieces
    widest = max((len(rows_of) for rows_of in load.rows_of), default=1)
    rows_of = np.full((carriers, max(widest, 1)), len(rows), dtype=np.int64)
    for carrier, its_rows in enumerate(load.rows_of):
        rows_of[carrier, : len(its_rows)] = its_rows
    able = np.zeros((len(pieces), carriers), dtype=bool)
    for index, piece in enumerate(pieces):
        able[index, list(piece.able)] = True
    return _Board(
        load=np.array([*load.load, 0.0], dtype=float),
        cap=np.array([*(row.cap for row in rows), np.inf], dtype=float),
        scale=np.array(
            [*(FRACTION_GRID / max(r.cap, 1) if r.in_fraction else 0.0 for r in rows), 0.0]
        ),
        of_mass=np.array([*(row.of_mass for row in rows), True]),
        rows_of=rows_of,
        mass=np.array([piece.mass_g for piece in pieces], dtype=float),
        volume=np.array([piece.volume_ml for piece in pieces], dtype=float),
        where=np.array(load.where, dtype=np.int64),
        able=able,
        kind=np.array([piece.cargo for piece in pieces], dtype=np.int64),
        member=np.array(
            [[piece.cargo in cargoes for piece in pieces] for cargoes, _, _ in load.apart],
            dtype=bool,
        ).reshape(len(load.apart), len(pieces)),
        held=np.array(load.held, dtype=np.int64).reshape(len(load.apart), carriers),
        most=np.array(
            [(total + 1) // 2 if half else total - 1 for _, half, total in load.apart],
            dtype=np.int64,
        ),
    )
