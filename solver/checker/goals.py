"""The goals of a plan recomputed from its replay, in the order in which goals are taken."""

from __future__ import annotations

from solver.checker.loads import Burden
from solver.checker.replay import Replay
from solver.problem import NeedKind, Trip
from solver.quantities import fraction_up, share_down


def load_fraction(burden: Burden, trip: Trip) -> int:
    """Largest of a person's loads over their own caps on a trip, rounded up [1/10,000].

    A load on a cap of zero has no fraction: it is given as on a cap of one gram, and the cap's
    own rule tells it.
    """
    caps = burden.person.caps
    shares = [(burden.pack_g, caps.pack_on(trip.leg.mode, trip.direction))]
    if burden.sled is not None:
        sled_cap_g = share_down(amount=caps.sled_g, percent=trip.sled_factor_percent)
        shares.append((burden.sled_g, sled_cap_g))
        if caps.total_g is not None:
            shares.append((burden.pack_g + burden.sled_g, caps.total_g))
    return max(fraction_up(load_g=load_g, cap_g=max(cap_g, 1)) for load_g, cap_g in shares)


def peak_load(replay: Replay) -> int:
    """Largest load fraction of anybody on any trip [1/10,000]."""
    return max(_largest(replay), default=0)


def fair_loads(replay: Replay) -> int:
    """Sum over all trips of the trip's largest load fraction [1/10,000]."""
    return sum(_largest(replay))


def mass_height(replay: Replay) -> int:
    """Gross mass moved times height gained, summed over the trips that gain height [g m]."""
    total = 0
    for record in replay.records:
        ends = (record.trip.from_place, record.trip.to_place)
        low_m, high_m = (replay.facts.problem.route.place(place).elevation_m for place in ends)
        if high_m > low_m:
            moved_g = sum(b.pack_g + b.sled_g for b in record.burdens)
            total += moved_g * (high_m - low_m)
    return total


def hand_overs(replay: Replay) -> int:
    """Units that another person carries than on the trip before on which such units rode [1].

    Personal items of every trip have one carrier and are left out.
    """
    changes = 0
    carried_before: dict[str, dict[str, int]] = {}
    for record in replay.records:
        carried: dict[str, dict[str, int]] = {}
        for carrier in record.carriers:
            person_id = carrier.person_id
            for unit_id, count in carrier.counts.items():
                by_person = carried.setdefault(unit_id, {})
                by_person[person_id] = by_person.get(person_id, 0) + count
        for unit_id, by_person in carried.items():
            before = carried_before.get(unit_id)
            if before is not None and before != by_person and not _is_day_kit(replay, unit_id):
                for person_id, count in by_person.items():
                    changes += max(count - before.get(person_id, 0), 0)
        carried_before |= carried
    return changes


GOALS = (
    ("peak_load", peak_load),
    ("fair_loads", fair_loads),
    ("mass_height", mass_height),
    ("hand_overs", hand_overs),
)


def _largest(replay: Replay) -> list[int]:
    return [
        max((load_fraction(burden, record.trip) for burden in record.burdens), default=0)
        for record in replay.records
    ]


def _is_day_kit(replay: Replay, unit_id: str) -> bool:
    item = replay.facts.units[unit_id].item
    return item is not None and item.owner_id is not None and item.need.kind is NeedKind.EVERY_TRIP
