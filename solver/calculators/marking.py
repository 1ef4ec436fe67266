"""Poles for caches and wands for routes."""

from __future__ import annotations

from solver.calculators._ranges import require_within
from solver.calculators._rounding import whole_up


def cache_pole_count(*, stock_volume_l: float, l_per_pole: float = 150.0) -> int:
    """Poles, or snow pickets standing in for them, that mark one cache [count].

    Range: 0 to 5000 L of stock, 20 to 1000 L per pole; refused outside. An empty cache needs none,
    any other at least 2.

    Source: common practice, no source: two poles for a small cache, so that one may be lost, and
    one more for each 150 L beyond the first 300, because a long pit is marked at its corners.

    Departs: not a published model.

    Independent check: none was found; trip accounts (read) have one tagged pole at each cache.
    """
    require_within("stock_volume_l", stock_volume_l, 0.0, 5000.0, "L")
    require_within("l_per_pole", l_per_pole, 20.0, 1000.0, "L")
    return max(2, whole_up(stock_volume_l / l_per_pole)) if stock_volume_l > 0 else 0


def cache_pole_length_m(
    *,
    expected_snow_m: float,
    burial_depth_m: float = 1.0,
    set_depth_m: float = 0.5,
    stay_proud_m: float = 1.0,
) -> float:
    """Shortest pole that still stands proud of the snow when the party comes back [m].

    Range: expected snow and drift 0 to 3 m, burial 0.3 to 3 m, set depth 0.3 to 1.5 m, proud 0.3
    to 2 m; refused outside.

    Source: common practice, no source (memory-unverified): the longer of burial plus expected snow,
    and set depth plus expected snow plus the metre that stays proud. Trip accounts (read) have
    caches at least 1 m deep and poles of about 1.8 m.

    Departs: not a published model.

    Independent check: the 1.8 m of the accounts is met with 0.3 m of expected snow.
    """
    require_within("expected_snow_m", expected_snow_m, 0.0, 3.0, "m")
    require_within("burial_depth_m", burial_depth_m, 0.3, 3.0, "m")
    require_within("set_depth_m", set_depth_m, 0.3, 1.5, "m")
    require_within("stay_proud_m", stay_proud_m, 0.3, 2.0, "m")
    return max(burial_depth_m, set_depth_m + stay_proud_m) + expected_snow_m


def route_wand_count(
    *, distance_m: float, rope_team_length_m: float, spare_share: float = 0.1
) -> int:
    """Wands that let a party find its way back in cloud [count].

    Range: distance 0 to 100 000 m, rope team 5 to 200 m long, spare share 0 to 1; refused outside.

    Source: common practice, no source: one wand for each length of the rope team, so that the last
    person still stands at one wand when the first finds the next, one more at the end, and a tenth
    to spare.

    Departs: not a published model.

    Independent check: none was found.
    """
    require_within("distance_m", distance_m, 0.0, 100_000.0, "m")
    require_within("rope_team_length_m", rope_team_length_m, 5.0, 200.0, "m")
    require_within("spare_share", spare_share, 0.0, 1.0, "of the wands")
    if distance_m == 0:
        return 0
    return whole_up((whole_up(distance_m / rope_team_length_m) + 1) * (1.0 + spare_share))


def cross_line_marker_count(*, search_error_m: float, spacing_m: float) -> int:
    """Markers in a line at right angles to the route that a party cannot walk past [count].

    Range: search error 0 to 10 000 m to each side, spacing 5 to 1000 m; refused outside.

    Source: historic practice (read): flags each half mile for five miles to each side of a depot.

    Departs: the spacing here is the distance at which a marker is still seen; the historic one
    relied on clear weather.

    Independent check: the historic line, 5 miles to each side at half a mile: 20 flags and the
    depot's own between them.
    """
    require_within("search_error_m", search_error_m, 0.0, 10_000.0, "m")
    require_within("spacing_m", spacing_m, 5.0, 1000.0, "m")
    each_side = whole_up(search_error_m / spacing_m)
    return 2 * each_side + 1
