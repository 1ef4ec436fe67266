"""Load fractions: what people carry as a share of their own caps, trip by trip and day by day."""

from __future__ import annotations

from solver.checker.ledger.loads import Burden
from solver.checker.ledger.once import once
from solver.checker.ledger.replay import Replay
from solver.problem import Problem, Trip
from solver.quantities import fraction_up, share_down


def load_fraction(problem: Problem, burden: Burden, trip: Trip) -> int:
    """Largest of a person's loads over their own caps on a trip, rounded up [1/10,000].

    A total cap that is waived does not count, as it binds nobody. Somebody's load limit is a cap
    like the others, on pack and sled together. A load on a cap of zero has no fraction: it is
    given as on a cap of one gram, and the cap's own rule finds it.
    """
    caps = burden.person.caps
    shares = [(burden.pack_g, caps.pack_on(trip.leg.mode, trip.direction))]
    if burden.sled is not None:
        shares.append((burden.sled_g, sled_cap_g(burden, trip)))
        if counts_total_cap(problem, burden):
            shares.append((burden.pack_g + burden.sled_g, caps.total_g or 0))
    if burden.person.load_limit_g is not None:
        shares.append((limited_g(burden, trip), burden.person.load_limit_g))
    return max(fraction_up(load_g=load_g, cap_g=max(cap_g, 1)) for load_g, cap_g in shares)


def counts_total_cap(problem: Problem, burden: Burden) -> bool:
    """Whether a total cap is given and not waived, and the sled is hauled by one."""
    return (
        burden.person.caps.total_g is not None
        and len(burden.pulls) == 1
        and problem.must_keep("total_cap_held")
    )


def sled_cap_g(burden: Burden, trip: Trip) -> int:
    """What a sled may weigh gross on a trip, by its haulers' caps and shares and the leg [g]."""
    return min(
        share_down(amount=person.caps.sled_g, percent=trip.sled_factor_percent) * 100 // percent
        for person, percent in burden.pulls
    )


def limited_g(burden: Burden, trip: Trip) -> int:
    """What counts against a person's load limit: pack and sled, both gross [g].

    Of a sled with two haulers each has their share of its limit on the leg, rounded up.
    """
    if burden.harness is None:
        return burden.pack_g
    sled, percent = burden.harness
    if percent == 100:
        return burden.pack_g + burden.sled_g
    limit_g = sled.mass_limit_g * trip.sled_factor_percent // 100
    return burden.pack_g - (-limit_g * percent // 100)


def whole_percent(fraction: int) -> int:
    """A load fraction in whole per cent, rounded down: what people compare at a glance."""
    return fraction // 100


@once
def largest_fractions(replay: Replay) -> tuple[int, ...]:
    """The largest load fraction of each trip to come, 0 where nobody carries [1/10,000]."""
    return tuple(
        max(
            (load_fraction(replay.facts.problem, burden, record.trip) for burden in record.burdens),
            default=0,
        )
        for record in replay.to_come
    )


@once
def day_fractions(replay: Replay) -> dict[int, dict[str, int]]:
    """By day of travel to come, the largest load fraction of each who travels [1/10,000]."""
    days: dict[int, dict[str, int]] = {}
    for record in replay.to_come:
        of_day = days.setdefault(record.trip.day, {})
        for burden in record.burdens:
            person_id = burden.person.person_id
            fraction = load_fraction(replay.facts.problem, burden, record.trip)
            of_day[person_id] = max(fraction, of_day.get(person_id, 0))
    return days
