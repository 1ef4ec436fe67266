"""Load fractions of a draft: what its loads come to as shares of the caps."""

from __future__ import annotations

from collections import defaultdict

from solver.model.assignment.draft import Draft
from solver.model.formulation.frame import Frame
from solver.model.rows import sled_carrier
from solver.quantities import fraction_up


def hauler_of(frame: Frame) -> dict[str, str]:
    """Who hauls each sled, by the sled's carrier id."""
    return {sled_carrier(s.sled_id): s.hauler_id for s in frame.world.problem.sleds}


def trip_fractions(frame: Frame, draft: Draft) -> list[int]:
    """The largest load fraction of each trip [1/10,000]."""
    return [max(people.values(), default=0) for people in person_fractions(frame, draft)]


def person_fractions(frame: Frame, draft: Draft) -> list[dict[str, int]]:
    """For each trip the largest load fraction of each person [1/10,000]."""
    load_g: dict[tuple[int, str, bool], int] = defaultdict(int)
    sleds = hauler_of(frame)
    for (cargo, trip, carrier_id), units in draft.carried.items():
        person_id = sleds.get(carrier_id, carrier_id)
        load_g[trip, person_id, carrier_id in sleds] += units * frame.weight(
            cargo, trip, of_mass=True
        )
    by_trip = []
    for trip, rows in enumerate(frame.load_rows):
        fractions: dict[str, int] = {}
        for row in rows:
            if row.in_fraction:
                load = row.fixed
                load += load_g[trip, row.person_id, False] if row.in_pack else 0
                load += load_g[trip, row.person_id, True] if row.in_sled else 0
                fraction = fraction_up(load_g=load, cap_g=row.cap)
                fractions[row.person_id] = max(fraction, fractions.get(row.person_id, 0))
        by_trip.append(fractions)
    return by_trip


def peak_of(frame: Frame, draft: Draft) -> int:
    """The largest load fraction of a draft [1/10,000]."""
    return max(trip_fractions(frame, draft), default=0)


def better_of(frame: Frame, kept: Draft, offered: Draft) -> Draft:
    """The draft with the lower peak, or with the smaller sum where the peaks are the same."""
    before, after = (trip_fractions(frame, draft) for draft in (kept, offered))
    is_better = (max(after, default=0), sum(after)) < (max(before, default=0), sum(before))
    return offered if is_better else kept
