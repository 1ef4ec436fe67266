"""One trip's loads: units put into packs and on sleds, and the fractions that they make.

Given which units ride, trips do not touch each other: each is a question of sharing units
out among carriers under the trip's own rows.
"""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass, field

from solver.model.frame import Frame
from solver.model.rows import LoadRow
from solver.quantities import FRACTION_GRID

TOO_MUCH = 10**9
"""Load fractions from here on stand for a broken hard limit."""


@dataclass(frozen=True, slots=True)
class Piece:
    """One unit to be put somewhere on a trip; carriers by their place in `TripLoad.carriers`."""

    cargo: int
    mass_g: int
    volume_ml: int
    able: tuple[int, ...]


@dataclass(slots=True)
class TripLoad:
    """The loads of one trip while they are being made.

    `load[r]` is what row r adds up to, `where[k]` the carrier of piece k or −1.
    """

    carriers: tuple[str, ...]
    pieces: tuple[Piece, ...]
    rows: tuple[LoadRow, ...]
    rows_of: tuple[tuple[int, ...], ...]
    apart: tuple[tuple[frozenset[int], bool, int], ...]
    load: list[int]
    where: list[int] = field(default_factory=list)
    held: list[list[int]] = field(default_factory=list)

    def fraction_of_row(self, row: int, extra: int = 0) -> int:
        """The load fraction of a row with something more in it.

        Beyond a limit it is TOO_MUCH and the excess, so that less excess counts as better.
        """
        its = self.rows[row]
        load = self.load[row] + extra
        if load > its.cap:
            return TOO_MUCH + load - its.cap
        if not its.in_fraction or load == 0:
            return 0
        return -(-load * FRACTION_GRID // its.cap)

    def fraction_with(self, piece: Piece, carrier: int) -> int:
        """The largest fraction of a carrier's rows once a piece is added to it."""
        worst = 0
        for row in self.rows_of[carrier]:
            extra = piece.mass_g if self.rows[row].of_mass else piece.volume_ml
            fraction = self.fraction_of_row(row, extra)
            worst = max(worst, fraction)
        return worst

    def level(self, carrier: int) -> int:
        """The largest fraction of a carrier's rows as they are."""
        return max((self.fraction_of_row(row) for row in self.rows_of[carrier]), default=0)

    def keeps_apart(self, piece: Piece, carrier: int) -> bool:
        """Whether one more unit of its kind may go into a carrier."""
        for number, (cargoes, half, total) in enumerate(self.apart):
            if piece.cargo in cargoes:
                held = self.held[number][carrier] + 1
                if half and 2 * held > total + 1:
                    return False
                if not half and total >= 2 and held > total - 1:
                    return False
        return True

    def crowded(self) -> bool:
        """Whether some carrier holds more of a kind that is to be kept apart than it may."""
        return any(
            self.breaks_apart(number, carrier)
            for number in range(len(self.apart))
            for carrier in range(len(self.carriers))
        )

    def breaks_apart(self, number: int, carrier: int) -> bool:
        """Whether a carrier holds more units of one apart row than it may."""
        _, half, total = self.apart[number]
        held = self.held[number][carrier]
        return 2 * held > total + 1 if half else held > total - 1

    def put(self, index: int, carrier: int) -> None:
        """Put a piece into a carrier, out of the one where it was."""
        piece = self.pieces[index]
        for sign, place in ((-1, self.where[index]), (1, carrier)):
            if place < 0:
                continue
            for row in self.rows_of[place]:
                amount = piece.mass_g if self.rows[row].of_mass else piece.volume_ml
                self.load[row] += sign * amount
            for number, (cargoes, _, _) in enumerate(self.apart):
                if piece.cargo in cargoes:
                    self.held[number][place] += sign
        self.where[index] = carrier

    def peak(self) -> int:
        """The largest load fraction of the trip, TOO_MUCH when a limit is broken."""
        if self.crowded():
            return TOO_MUCH
        return max((self.fraction_of_row(row) for row in range(len(self.rows))), default=0)

    def carried(self, trip: int) -> dict[tuple[int, int, str], int]:
        """The units by (cargo, trip, carrier)."""
        count: dict[tuple[int, int, str], int] = defaultdict(int)
        for piece, carrier in zip(self.pieces, self.where, strict=True):
            count[piece.cargo, trip, self.carriers[carrier]] += 1
        return dict(count)


def empty_trip(frame: Frame, trip: int, riding: dict[int, int]) -> TripLoad:
    """A trip with the units that ride on it (cargo → units), none of them put anywhere yet."""
    carriers = frame.carriers[trip]
    number = {carrier.carrier_id: index for index, carrier in enumerate(carriers)}
    rows = frame.load_rows[trip]
    pieces = [
        Piece(
            cargo,
            frame.weight(cargo, trip, of_mass=True),
            frame.weight(cargo, trip, of_mass=False),
            tuple(number[c.carrier_id] for c in frame.may_carry[cargo, trip]),
        )
        for cargo, units in sorted(riding.items())
        for _ in range(units)
    ]
    apart = []
    for row in frame.apart_rows[trip]:
        total = sum(riding.get(cargo, 0) for cargo in row.cargoes)
        if total >= 2:
            apart.append((frozenset(row.cargoes), row.half, total))
    return TripLoad(
        carriers=tuple(carrier.carrier_id for carrier in carriers),
        pieces=tuple(pieces),
        rows=rows,
        rows_of=tuple(
            tuple(
                index
                for index, row in enumerate(rows)
                if row.person_id == carrier.person_id
                and (row.in_sled if carrier.is_sled else row.in_pack)
            )
            for carrier in carriers
        ),
        apart=tuple(apart),
        load=[row.fixed for row in rows],
        where=[-1] * len(pieces),
        held=[[0] * len(carriers) for _ in apart],
    )


def longest_first(trip_load: TripLoad) -> bool:
    """Put the heaviest piece first, each where the fraction grows least; whether all went in.

    R. L. Graham, "Bounds on multiprocessing timing anomalies", SIAM J. Appl. Math. 17 (1969),
    with fractions of own caps for times. Pieces without a choice go first, those already put
    somewhere stay; a piece that fits nowhere is put anywhere, and the answer is False.
    """
    fits = True
    order = sorted(
        (index for index, carrier in enumerate(trip_load.where) if carrier < 0),
        key=lambda k: (
            len(trip_load.pieces[k].able) > 1,
            -trip_load.pieces[k].mass_g,
            -trip_load.pieces[k].volume_ml,
            k,
        ),
    )
    level = [trip_load.level(carrier) for carrier in range(len(trip_load.carriers))]
    for index in order:
        fraction, carrier = _least_grown(trip_load, trip_load.pieces[index], level)
        fits = fits and fraction < TOO_MUCH
        trip_load.put(index, carrier)
        level[carrier] = trip_load.level(carrier)
    return fits and trip_load.peak() < TOO_MUCH


def _least_grown(trip_load: TripLoad, piece: Piece, level: list[int]) -> tuple[int, int]:
    """The carrier whose fraction is least once it has the piece, and that fraction.

    `level` is what each carrier's own rows came to when it was last changed. Rows shared with
    the person's other carrier only grow, so a level is never above the truth, and carriers
    can be tried from the least full until the next cannot be better.
    """
    best, chosen = TOO_MUCH, -1
    for carrier in sorted(piece.able, key=lambda c: (level[c], c)):
        if level[carrier] >= best:
            break
        if trip_load.keeps_apart(piece, carrier):
            fraction = trip_load.fraction_with(piece, carrier)
            if fraction < best:
                best, chosen = fraction, carrier
    return (best, chosen) if chosen >= 0 else (TOO_MUCH, piece.able[0])
