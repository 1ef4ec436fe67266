"""Sled share uphill: going up, the sled has its share of pack and sled for the slope.

For each hauler on each trip that ends no lower than it began, on a leg whose steepest angle was
said: least % x (pack + sled) <= sled gross <= most % x (pack + sled), the band by the angle:
below `gentle_slope_deg`, from there below `steep_slope_deg`, from there to `steepest_sled_deg`.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.replay import Replay
from solver.checker.queries.sled_shares import share_findings
from solver.plan import Finding
from solver.problem import RuleSettings

RULE = "sled_share_uphill"


def sled_share_uphill(replay: Replay) -> Iterator[Finding]:
    """Sleds with too small or too large a share of their hauler's load on the way up."""
    rules = replay.facts.problem.rules
    for record in replay.records:
        route, trip = replay.facts.problem.route, record.trip
        rise_m = route.place(trip.to_place).elevation_m - route.place(trip.from_place).elevation_m
        if rise_m >= 0 and trip.leg.steepest_deg is not None:
            band = _band(rules, trip.leg.steepest_deg)
            if band is not None:
                yield from share_findings(RULE, record, *band)


def _band(rules: RuleSettings, angle_deg: float) -> tuple[int, int] | None:
    """Least and most share of the sled for an angle [%]; None where no sled should be."""
    if angle_deg > rules.number("steepest_sled_deg"):
        return None
    if angle_deg >= rules.number("steep_slope_deg"):
        name = "steep"
    else:
        name = "gentle" if angle_deg >= rules.number("gentle_slope_deg") else "flat"
    least, most = f"{name}_least_sled_percent", f"{name}_most_sled_percent"
    return rules.whole(least), rules.whole(most)
