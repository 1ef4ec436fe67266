"""One trip whose carriers are all alike, packed by `alike_bins`.

A large party of people with the same caps and nothing of their own on the trip: then it does
not matter who carries what, and the question is one of bins. Trips that are not of this kind
are left to the exact packing by people.
"""

from __future__ import annotations

from dataclasses import replace

from solver.model.assignment.draft import Held
from solver.model.formulation.frame import Frame
from solver.model.formulation.spread_slack import Slack
from solver.model.rows import spread_weights
from solver.model.solvers.arc_flow import BinPacking, pack_identical_bins
from solver.model.solvers.highs_run import Effort
from solver.quantities import FRACTION_GRID, fraction_up

MOST_TRIES = 5
"""Capacities tried gram by gram from the bound up before any that fits will do."""


def pack_identical_carriers(
    frame: Frame,
    trip: int,
    riding: dict[int, int],
    slack: Slack,
    *,
    at_least: int,
    at_most: int,
    effort: Effort,
) -> tuple[Held, int] | None:
    """What each carrier holds, and a bound on the trip's fraction; None where it cannot tell."""
    alike = _alike(frame, trip, riding, slack)
    if alike is None:
        return None
    fixed_g, cap_g = alike
    pieces = [cargo for cargo, units in riding.items() for _ in range(units)]
    sizes = [frame.weight(cargo, trip, of_mass=True) for cargo in pieces]
    carriers = [carrier.carrier_id for carrier in frame.carriers[trip]]
    first_g = at_least * cap_g // FRACTION_GRID
    last_g = at_most * cap_g // FRACTION_GRID
    bound = at_least
    for load_g in range(first_g, min(last_g, first_g + MOST_TRIES)):
        answer = _packed(sizes, carriers, load_g - fixed_g, effort)
        if answer.bins is not None:
            return _held(pieces, carriers, answer.bins), bound
        if not answer.infeasible:
            break
        bound = fraction_up(load_g=load_g + 1, cap_g=cap_g)
    answer = _packed(sizes, carriers, last_g - fixed_g, effort)
    return None if answer.bins is None else (_held(pieces, carriers, answer.bins), bound)


def _packed(sizes: list[int], carriers: list[str], capacity_g: int, effort: Effort) -> BinPacking:
    """One try, in half the time: most that have no answer are told so at once."""
    half = replace(effort, seconds=0.5 * effort.seconds)
    return pack_identical_bins(sizes, bins=len(carriers), capacity=capacity_g, effort=half)


def _held(pieces: list[int], carriers: list[str], bins: tuple[tuple[int, ...], ...]) -> Held:
    """The pieces of each bin as units of cargo in each carrier."""
    held: Held = {}
    for carrier_id, indices in zip(carriers, bins, strict=True):
        for index in indices:
            key = pieces[index], carrier_id
            held[key] = held.get(key, 0) + 1
    return held


def _alike(frame: Frame, trip: int, riding: dict[int, int], slack: Slack) -> tuple[int, int] | None:
    """Mass on each carrier before any piece and its cap [g], where all carriers are alike."""
    carriers = frame.carriers[trip]
    if len(carriers) < 2 or any(carrier.is_sled for carrier in carriers):
        return None
    if any(frame.pinned(cargo, trip) for cargo in riding):
        return None
    for row, most in zip(frame.spread_rows[trip], slack, strict=True):
        weights = spread_weights(row)
        if sum(weights.get(cargo, 0) * units for cargo, units in riding.items()) > most:
            return None
    if not riding or any(len(frame.may_carry[c, trip]) != len(carriers) for c in riding):
        return None
    volume_ml = sum(
        units * frame.weight(cargo, trip, of_mass=False) for cargo, units in riding.items()
    )
    rows = frame.load_rows[trip]
    if any(row.fixed + volume_ml > row.cap for row in rows if not row.of_mass):
        return None
    limits = {(row.fixed, row.cap) for row in rows if row.of_mass and row.in_fraction}
    of_mass = [row for row in rows if row.of_mass]
    if len(limits) != 1 or len(of_mass) != len(carriers):
        return None
    return limits.pop()
