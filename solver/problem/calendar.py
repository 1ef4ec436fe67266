"""The calendar: for each day the places that each rope team visits, in order."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Visit:
    """The places that some rope teams visit together on one day.

    The first is where they slept last night (on day 1, where they start), the last is where
    they sleep tonight (on the last day, where the trip ends). `("c1", "c2", "c1")` is a
    carry, `("c1",)` a day without travel.
    """

    rope_team_ids: tuple[str, ...]
    places: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Day:
    """One day; every rope team stands in exactly one of its visits.

    `start_hour` and `turn_round_hour` are hours of the clock, for a summit day.
    """

    visits: tuple[Visit, ...]
    note: str = ""
    start_hour: float | None = None
    turn_round_hour: float | None = None

    def visit_of(self, rope_team_id: str) -> Visit:
        """The visit that a rope team makes this day; KeyError when it has none."""
        for visit in self.visits:
            if rope_team_id in visit.rope_team_ids:
                return visit
        raise KeyError(rope_team_id)


@dataclass(frozen=True, slots=True)
class Calendar:
    """The days in order; day 1 is `days[0]`. The night of day d follows it; the last has none."""

    days: tuple[Day, ...]
