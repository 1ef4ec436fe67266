"""Sled share downhill: on slopes going down, the sled has a smaller share than going up.

For each hauler on each trip that ends lower than it began, on a leg whose steepest angle is from
`gentle_slope_deg` to below `steep_slope_deg`: least % x (pack + sled) <= sled gross <=
most % x (pack + sled).
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.replay import Replay
from solver.checker.queries.sled_shares import share_findings
from solver.plan import Finding
from solver.problem import Trip

RULE = "sled_share_downhill"


def sled_share_downhill(replay: Replay) -> Iterator[Finding]:
    """Sleds with too small or too large a share of their hauler's load on the way down."""
    rules = replay.facts.problem.rules
    least, most = rules.whole("down_least_sled_percent"), rules.whole("down_most_sled_percent")
    for record in replay.records:
        if _falls(replay, record.trip) and _is_slope(replay, record.trip):
            yield from share_findings(RULE, record, least, most)


def _falls(replay: Replay, trip: Trip) -> bool:
    route = replay.facts.problem.route
    return route.place(trip.to_place).elevation_m < route.place(trip.from_place).elevation_m


def _is_slope(replay: Replay, trip: Trip) -> bool:
    rules, angle_deg = replay.facts.problem.rules, trip.leg.steepest_deg
    if angle_deg is None:
        return False
    return rules.number("gentle_slope_deg") <= angle_deg < rules.number("steep_slope_deg")
