"""Nobody stranded: who waits at the start place between flights can stay for a night.

After every flight in but the first with people, and after every flight out that leaves
somebody: shelter places >= people there; stoves and communicators >= 1 each; for each cook
group there, night sets >= people and fuel >= people x fuel of a set x (1 + margin), rounded up.
The first flight in has its own rule; what stands there before the first flight out is for the
reserves.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.replay import Replay
from solver.checker.queries.flights import sides
from solver.checker.queries.strip_kit import Lack, lacks
from solver.checker.queries.waiting import waits
from solver.plan import Finding
from solver.problem import Purpose

RULE = "nobody_stranded"

_KIT = (Purpose.STOVE, Purpose.COMMUNICATOR)


def nobody_stranded(replay: Replay) -> Iterator[Finding]:
    """What people who wait lack: one finding a thing and direction, where it lacks most."""
    for side in sides(replay):
        worst: dict[str, tuple[str, Lack]] = {}
        for waiting in waits(side):
            if waiting.is_first:
                continue
            for lack in lacks(waiting, _KIT, nights=1):
                if lack.thing not in worst or lack.amount > worst[lack.thing][1].amount:
                    worst[lack.thing] = waiting.flown.flight.flight_id, lack
        for flight_id, lack in worst.values():
            yield Finding(
                RULE,
                f"at {replay.facts.problem.start_place} after flight {flight_id} has left: "
                f"{lack.words}",
                lack.amount,
                lack.unit,
                (("flight", flight_id), ("thing", lack.thing), *lack.where),
            )
