"""The ways of the single units of one id through a replayed plan, first come, first gone."""

from __future__ import annotations

from collections import defaultdict, deque
from dataclasses import dataclass

from solver.checker.ledger.course import Event
from solver.checker.ledger.replay import Replay, events_of


@dataclass(frozen=True, slots=True)
class UnitWay:
    """The trips that a unit rides, and the event that uses it up; None for one that comes home."""

    trips: tuple[int, ...]
    used: Event | None


def unit_ways(replay: Replay, unit_id: str) -> list[UnitWay]:
    """One way for each unit that is taken along, in a plan in which no unit is missing.

    Units are alike: of those that stand at a place, the first to have come leaves first.
    """
    standing: dict[str, deque[tuple[int, ...]]] = defaultdict(deque)
    home = replay.facts.problem.start_place
    standing[home].extend(() for _ in range(replay.courses[unit_id].counts[0].get(home, 0)))
    moving: dict[int, list[tuple[int, ...]]] = defaultdict(list)
    ways = []
    for event in events_of(replay.facts, replay.records, unit_id):
        here = standing[event.place_id]
        if event.change < 0:
            for _ in range(min(-event.change, len(here))):
                way = here.popleft()
                if event.leg is None:
                    ways.append(UnitWay(way, event))
                else:
                    moving[event.leg].append((*way, event.leg))
        elif event.leg is not None:
            here.extend(moving.pop(event.leg, []))
    return ways + [UnitWay(way, None) for place in standing.values() for way in place]
