"""One trip's loads: units put into packs and on sleds, and the fractions that they make.

Given which units ride, trips do not touch each other: each is a question of sharing units
out among carriers under the trip's own rows. Everything is held as arrays, so that one piece
is weighed in all carriers at once.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from solver.model.assignment.draft import Held
from solver.quantities import FRACTION_GRID

Floats = npt.NDArray[np.float64]


Ints = npt.NDArray[np.int64]


Bools = npt.NDArray[np.bool_]


TOO_MUCH = 10**9
"""Load fractions from here on stand for a broken hard limit."""


@dataclass(slots=True)
class TripLoad:
    """A trip with P pieces, C carriers, R rows (and an empty one that pads) and S spread rows.

    `load`, `cap`, `scale`, `of_mass` are (R + 1,), amounts in g or mL; `scale` is 0 on rows that
    do not count in the load fraction, `share` never. `rows_of` is (C, most
    rows of a carrier); `able` (P, C); `where` (P,) the carrier of each piece or −1; `member`
    (S, P) is what each piece counts in a spread row, `counted` (S, C) their sums, `most` (S,) what
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
    counted: Ints
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
        return self.levels_of_next(all_rows=all_rows)(piece)

    def levels_of_next(self, *, all_rows: bool = False) -> Callable[[int], Floats]:
        """`levels_with` for many pieces one after the other: what does not change is read once."""
        rows = self.rows_of
        of_mass, cap, scale, share = (
            row[rows] for row in (self.of_mass, self.cap, self.scale, self.share)
        )

        def levels_with(piece: int) -> Floats:
            amount = self.load[rows] + np.where(of_mass, self.mass[piece], self.volume[piece])
            if all_rows:
                full = amount * share
            else:
                over = amount - cap
                full = np.where(over > 0, TOO_MUCH + over, amount * scale)
            level = full.max(axis=1)
            allowed = self.able[piece]
            for row in self.member[:, piece].nonzero()[0]:
                allowed = allowed & (self.counted[row] + self.member[row, piece] <= self.most[row])
            return np.where(allowed, level, np.inf)

        return levels_with

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
            self.counted[:, place] += sign * self.member[:, piece]
        self.where[piece] = carrier

    def peak(self) -> int:
        """The largest load fraction of the trip rounded up, TOO_MUCH when a limit is broken."""
        if (self.load > self.cap).any() or (self.counted > self.most[:, None]).any():
            return TOO_MUCH
        counted = self.scale > 0
        up = -(-self.load[counted] * FRACTION_GRID // self.cap[counted])
        return int(up.max(initial=0))

    def held(self) -> Held:
        """The units by (cargo, carrier)."""
        pairs = zip(self.cargo.tolist(), self.where.tolist(), strict=True)
        return {(i, self.carriers[c]): n for (i, c), n in Counter(pairs).items()}
