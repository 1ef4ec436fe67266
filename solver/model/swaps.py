"""Swap search: bringing one trip's largest load fraction down, move by move.

As long as the fullest row can be relieved, a piece leaves it for another carrier, or changes
places with a smaller one there, whichever leaves the worse of the two least full.
"""

from __future__ import annotations

from solver.model.packing import TOO_MUCH, TripLoad


def lower_peak(load: TripLoad, *, target: int, most_moves: int = 400) -> int:
    """Move and swap until the peak is at the target or nothing helps; the peak reached."""
    free = {k for k, piece in enumerate(load.pieces) if len(piece.able) > 1}
    for _ in range(most_moves):
        fractions = [load.fraction_of_row(row) for row in range(len(load.rows))]
        peak = max(fractions, default=0)
        if peak <= target:
            break
        fullest = fractions.index(peak)
        if not _relieve(load, free, fullest, peak):
            break
    return load.peak()


def _relieve(load: TripLoad, free: set[int], fullest: int, peak: int) -> bool:
    """Make the best move or swap that takes load off a row; whether there was one."""
    from_carriers = [c for c, rows in enumerate(load.rows_of) if fullest in rows]
    leaving = sorted(
        (k for k in free if load.where[k] in from_carriers),
        key=lambda k: -load.pieces[k].mass_g,
    )
    best: tuple[int, int, int, int] | None = None
    for k in leaving:
        home = load.where[k]
        for carrier in load.pieces[k].able:
            if carrier == home or not load.keeps_apart(load.pieces[k], carrier):
                continue
            worst = _worst_after(load, ((k, carrier),), (home, carrier))
            if worst < peak and (best is None or worst < best[0]):
                best = (worst, k, carrier, -1)
    seen: set[tuple[int, int, int, int, int]] = set()
    for k in leaving:
        home = load.where[k]
        one = load.pieces[k]
        for other in free:
            there = load.where[other]
            two = load.pieces[other]
            if there in from_carriers or (
                one.mass_g <= two.mass_g and one.volume_ml <= two.volume_ml
            ):
                continue
            key = (one.cargo, home, two.cargo, there, 0)
            if key in seen or there not in one.able or home not in two.able:
                continue
            seen.add(key)
            worst = _worst_after(load, ((k, there), (other, home)), (home, there))
            if worst < peak and (best is None or worst < best[0]):
                best = (worst, k, there, other)
    if best is None:
        return False
    _, k, carrier, other = best
    home = load.where[k]
    load.put(k, carrier)
    if other >= 0:
        load.put(other, home)
    return True


def _worst_after(
    load: TripLoad, moves: tuple[tuple[int, int], ...], touched: tuple[int, int]
) -> int:
    """The largest fraction of the carriers touched, were the moves made."""
    back = [(k, load.where[k]) for k, _ in moves]
    for k, carrier in moves:
        load.put(k, carrier)
    worst = 0
    if any(
        load.breaks_apart(number, carrier)
        for number in range(len(load.apart))
        for carrier in touched
    ):
        worst = TOO_MUCH
    else:
        for carrier in touched:
            for row in load.rows_of[carrier]:
                worst = max(worst, load.fraction_of_row(row))
    for k, carrier in reversed(back):
        load.put(k, carrier)
    return worst
