"""What has happened of an expedition: up to when, and what was counted that the plan had not.

With a history a problem is about the rest. Days that are over keep their place in the calendar,
as they were travelled. What stands where at the moment is given and cannot be chosen any more.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Change:
    """Units that were found to stand at a place (`count` above 0) or not to (below)."""

    place_id: str
    unit_id: str
    count: int


@dataclass(frozen=True, slots=True)
class Standing:
    """So many units of one id that stand at a place at the moment."""

    place_id: str
    unit_id: str
    count: int


@dataclass(frozen=True, slots=True)
class History:
    """The past ends with the trips of `day`, and with its night where `after_night`.

    `changes` happen at that moment. `burnt_ml` is fuel that each cook group has burnt beyond its
    plan, all of it on its last night that is over. `standing` is what stands where once all that
    is counted in; it follows from a plan, so whoever knows the plan fills it in. Waste of nights
    before `waste_since` is with others, from whom these people have parted. `before` is the history
    of an earlier count.
    """

    day: int
    after_night: bool = False
    changes: tuple[Change, ...] = ()
    burnt_ml: tuple[tuple[str, int], ...] = ()
    standing: tuple[Standing, ...] = ()
    waste_since: int = 1
    before: History | None = None

    @property
    def nights(self) -> int:
        """How many nights are over [1]."""
        return self.day if self.after_night else self.day - 1

    def more_burnt_ml(self, cook_group_id: str) -> int:
        """Fuel that a cook group has burnt beyond its plan [mL]."""
        return sum(ml for group, ml in self.burnt_ml if group == cook_group_id)

    @property
    def chain(self) -> tuple[History, ...]:
        """The history of every count, the oldest first."""
        return (self,) if self.before is None else (*self.before.chain, self)

    def lost(self, unit_id: str) -> int:
        """How many units of an id are gone for good, over all places and counts [1]."""
        every = (change for one in self.chain for change in one.changes)
        return -min(sum(c.count for c in every if c.unit_id == unit_id), 0)

    def lost_then(self, unit_id: str) -> int:
        """How many units of an id this count alone found gone, over all places [1]."""
        return -min(sum(c.count for c in self.changes if c.unit_id == unit_id), 0)
