"""First flight self sufficient: who comes first can stay for some nights without any other.

With the first flight in that has people, or before: shelter places >= people; stoves, pots,
communicators and medical kits >= 1 each; for each cook group, night sets >= nights x people
and fuel >= nights x people x fuel of a set x (1 + margin), rounded up; guides aboard >= 1 on a
guided trip. Worn things come with who wears them.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.replay import Replay
from solver.checker.queries.flights import sides
from solver.checker.queries.strip_kit import lacks
from solver.checker.queries.waiting import waits
from solver.plan import Finding
from solver.problem import Purpose

RULE = "first_flight_self_sufficient"

_KIT = (Purpose.STOVE, Purpose.POT, Purpose.COMMUNICATOR, Purpose.MEDICAL_KIT)


def first_flight_self_sufficient(replay: Replay) -> Iterator[Finding]:
    """What the first people at the start place lack, one finding a thing."""
    problem = replay.facts.problem
    nights = problem.rules.whole("first_flight_nights")
    for side in sides(replay):
        for waiting in waits(side):
            if not waiting.is_first:
                continue
            flight_id = waiting.flown.flight.flight_id
            at = f"flight {flight_id}, the first with people"
            for lack in lacks(waiting, _KIT, nights):
                yield Finding(
                    RULE,
                    f"{at}: {lack.words} with it or before",
                    lack.amount,
                    lack.unit,
                    (("flight", flight_id), ("thing", lack.thing), *lack.where),
                )
            if problem.is_guided and not any(person.is_guide for person in waiting.people):
                yield Finding(
                    RULE,
                    f"{at}: no guide aboard",
                    1,
                    "people",
                    (("flight", flight_id), ("thing", "guide")),
                )
