"""Menu in elevation band: a night set is eaten where it is meant for, and simmers low down only.

For each night set at each place where it is eaten: lowest_m <= elevation <= highest_m where
given, and elevation <= `boil_and_wait_from_m` where it is given as simmering. The amount is metres
outside, the larger where both are broken.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.facts import Facts
from solver.checker.queries.menus import sets_eaten
from solver.plan import Finding

RULE = "menu_in_elevation_band"


def menu_in_elevation_band(facts: Facts) -> Iterator[Finding]:
    """Night sets eaten higher or lower than they are meant for."""
    top = facts.problem.rules.whole("boil_and_wait_from_m")
    for use in sets_eaten(facts):
        night_set, elevation_m = use.night_set, use.place.elevation_m
        lowest, highest = night_set.lowest_m, night_set.highest_m
        broken = [
            (limit_off, words)
            for limit_off, words in (
                (0 if lowest is None else lowest - elevation_m, f"is meant from {lowest} m"),
                (0 if highest is None else elevation_m - highest, f"is meant up to {highest} m"),
                (
                    elevation_m - top if night_set.simmers else 0,
                    f"simmers, for {top} m at most",
                ),
            )
            if limit_off > 0
        ]
        if broken:
            yield Finding(
                RULE,
                f"{use.words}, {elevation_m} m, {' and '.join(words for _, words in broken)}",
                max(off for off, _ in broken),
                "m",
                use.where,
                ("name another set there", "take a set that only needs boiling water"),
            )
