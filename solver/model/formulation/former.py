"""What people had on each trip of a former plan, to stay close to."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass

Had = Counter[tuple[str, str]]
"""How many units of an id each person, or each pack and sled, has on a trip: (unit id, whose)."""


@dataclass(frozen=True, slots=True)
class Former:
    """What people had in a former plan, one entry for each trip of the frame.

    `had` is by person, `packed` by the pack or sled that it was in.

    Trips correspond by their places, in the order of the calendar: the second way from a camp to
    the next is the second one still, though the days have moved.
    """

    had: tuple[Had, ...]
    packed: tuple[Had, ...]

    def rides(self, trip: int) -> Counter[str]:
        """How many units of each id rode on a trip."""
        units: Counter[str] = Counter()
        for (unit_id, _), count in self.had[trip].items():
            units[unit_id] += count
        return units
