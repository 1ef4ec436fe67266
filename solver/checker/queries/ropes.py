"""Who goes where on the rope: the lead and the last of each rope team on a trip."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from solver.checker.ledger.loads import Burden, TripRecord


@dataclass(frozen=True, slots=True)
class RopeTeam:
    """The burdens of a rope team on a trip: its lead's, those in between, and its last's.

    The lead is the first guide, or the first person where no guide is; the last is the last of
    the others, None for a person alone. Both by the order of the roster.
    """

    rope_team_id: str
    lead: Burden
    between: tuple[Burden, ...]
    last: Burden | None

    @property
    def ends(self) -> frozenset[str]:
        """Who is at an end of the rope."""
        people = (self.lead, *(() if self.last is None else (self.last,)))
        return frozenset(burden.person.person_id for burden in people)


def rope_teams(record: TripRecord) -> Iterator[RopeTeam]:
    """The rope teams of a trip's party, in the order of the roster."""
    teams: dict[str, list[Burden]] = {}
    for burden in record.burdens:
        teams.setdefault(burden.person.rope_team_id, []).append(burden)
    for team_id, members in teams.items():
        lead = next((b for b in members if b.person.is_guide), members[0])
        others = [burden for burden in members if burden is not lead]
        last = others.pop() if others else None
        yield RopeTeam(team_id, lead, tuple(others), last)
