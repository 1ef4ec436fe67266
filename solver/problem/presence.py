"""From when until when somebody is with an expedition that people join or leave on the way."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Presence:
    """The first and the last day on which somebody travels, and likewise nights; None is no end.

    `place_id` is where they were met or where they left the others, None for those who are there
    all the time. Until they join and after they leave they count as being there, at nobody's
    table and on nobody's trip.
    """

    first_day: int = 1
    first_night: int = 1
    last_day: int | None = None
    last_night: int | None = None
    place_id: str | None = None

    def travels_on(self, day: int) -> bool:
        """Whether they are with the trips of a day."""
        return self.first_day <= day and (self.last_day is None or day <= self.last_day)

    def sleeps_on(self, day: int) -> bool:
        """Whether they are with the night of a day."""
        return self.first_night <= day and (self.last_night is None or day <= self.last_night)


ALL_THE_TIME = Presence()
