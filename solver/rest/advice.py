"""What a leader does with a plan for the rest: how long to wait, until when, what comes next."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from solver.checker.ledger.facts import read_facts
from solver.checker.ledger.loads import TripRecord
from solver.checker.ledger.replay import replay
from solver.checker.queries.fractions import load_fraction
from solver.outlook import Wait, waits
from solver.plan import Plan
from solver.problem import PlaceKind, Problem, Trip


@dataclass(frozen=True, slots=True)
class NextMove:
    """The first trip to come, and who has the largest load of that day [g], in pack and sled.

    `way` are the places that these people come through on that day, the first one included.
    `fraction` is that load's share of its caps on the grid of loads.
    """

    day: int
    from_place: str
    to_place: str
    person_id: str
    load_g: int
    fraction: int
    way: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Advice:
    """What follows from a plan for the rest.

    `waits` are those of every night from the moment on. `summit_day` is the day that reaches the
    summit, `last_summit_day` the last one on which it may, `last_turn_day` the last one on which
    the party at hand turns round with its turn-round stock whole; None where nothing limits it or
    there is none.
    """

    waits: tuple[Wait, ...]
    next_move: NextMove | None
    summit_day: int | None
    last_summit_day: int | None
    last_turn_day: int | None


def advise(problem: Problem, plan: Plan) -> Advice:
    """What a checked plan of a problem with a history says to its leader."""
    history = problem.history
    today = history.day if history is not None else 1
    replayed = replay(read_facts(problem), plan)
    to_come = tuple(w for w in waits(replayed) if w.day >= today)
    now = [w for w in to_come if w.day == min((x.day for x in to_come), default=0)]
    summits = {p.place_id for p in problem.route.places if p.kind is PlaceKind.SUMMIT}
    summit_day = next(
        (r.trip.day for r in replayed.to_come if r.trip.to_place in summits),
        None,
    )
    before_summit = [w for w in to_come if summit_day is not None and w.day < summit_day]
    spare = min((w.within_plan.nights for w in before_summit), default=None)
    turn = min((w.until_turn_round.nights for w in now), default=None)
    return Advice(
        waits=to_come,
        next_move=_next_move(problem, replayed.to_come),
        summit_day=summit_day,
        last_summit_day=None if summit_day is None or spare is None else summit_day + spare,
        last_turn_day=None if turn is None or not now else now[0].day + turn,
    )


def _next_move(problem: Problem, to_come: Sequence[TripRecord]) -> NextMove | None:
    """The first trip to come with the largest load of its day; None if there is none."""
    first = next(iter(to_come), None)
    that_day = [
        (burden, one.trip)
        for one in to_come
        if first is not None and one.trip.day == first.trip.day
        for burden in one.burdens
    ]
    if first is None or not that_day:
        return None
    burden, trip = max(that_day, key=lambda pair: pair[0].pack_g + pair[0].sled_g)
    return NextMove(
        day=first.trip.day,
        from_place=first.trip.from_place,
        to_place=first.trip.to_place,
        person_id=burden.person.person_id,
        load_g=burden.pack_g + burden.sled_g,
        fraction=load_fraction(problem, burden, trip),
        way=_way(first.trip, [one.trip for one in to_come]),
    )


def _way(first: Trip, to_come: Sequence[Trip]) -> tuple[str, ...]:
    """The places of a day's trips by the people of the first one."""
    people = set(first.person_ids)
    that_day = (trip for trip in to_come if trip.day == first.day)
    return (
        first.from_place,
        *(trip.to_place for trip in that_day if set(trip.person_ids) == people),
    )
