"""Stove when far: a party far from the camps of its day has stove, pot and fuel with it.

For each trip with hours on all legs between it and the ends of its party's day: away = larger
over the trip's ends of the least hours from either end of the day. Where away > `away_hours`:
stoves and pots on the trip >= 1 each, where any is listed, and fuel on it >= `away_fuel_ml` x
people of the party.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from solver.checker.ledger.loads import TripRecord
from solver.checker.ledger.replay import Replay
from solver.checker.queries.holdings import fuel_ml, in_hand, pieces
from solver.checker.queries.listed_gear import is_listed
from solver.checker.queries.telling import litres, trip_where, trip_words
from solver.plan import Finding
from solver.problem import Direction, Problem, Purpose, Trip

RULE = "stove_when_far"


def stove_when_far(replay: Replay) -> Iterator[Finding]:
    """Trips far from camp without the means to melt snow."""
    problem = replay.facts.problem
    limit_hours = problem.rules.number("away_hours")
    for record in replay.records:
        away_hours = _away_hours(problem, record.trip)
        if away_hours is not None and away_hours > limit_hours:
            yield from _missing(replay, record, away_hours)


def _missing(replay: Replay, record: TripRecord, away_hours: float) -> Iterator[Finding]:
    facts, trip = replay.facts, record.trip
    far = f"{trip_words(trip)}, {away_hours:g} hours from camp"
    for purpose, name in ((Purpose.STOVE, "stove"), (Purpose.POT, "pot")):
        if is_listed(facts, purpose) and not in_hand(pieces(facts, purpose), record.counts):
            yield Finding(
                RULE, f"{far}: no {name} rides with the party", 1, "units", trip_where(trip)
            )
    people = len(trip.person_ids)
    needed_ml = facts.problem.rules.whole("away_fuel_ml") * people
    there_ml = in_hand(fuel_ml(facts, trip.day - 1), record.counts)
    if there_ml < needed_ml:
        words = (
            f"{far}: {litres(there_ml)} of fuel rides with {people} people, "
            f"{litres(needed_ml)} needed"
        )
        yield Finding(RULE, words, needed_ml - there_ml, "mL", trip_where(trip))


def _away_hours(problem: Problem, trip: Trip) -> float | None:
    """How far a party gets from the places where its day begins and ends [h].

    None where a leg's hours are not known.
    """
    team = problem.person(trip.person_ids[0]).rope_team_id
    places = problem.calendar.days[trip.day - 1].visit_of(team).places
    nearest: list[float] = []
    for place_id in (trip.from_place, trip.to_place):
        hours = [_hours(problem, base, place_id) for base in (places[0], places[-1])]
        known = [each for each in hours if each is not None]
        if len(known) < len(hours):
            return None
        nearest.append(min(known))
    return max(nearest)


def _hours(problem: Problem, start: str, end: str) -> float | None:
    """Hours on the way from one place to another; None where a leg's are not known."""
    total = 0.0
    way = problem.route.path(start, end)
    for here, there in pairwise(way):
        leg = problem.route.leg_between(here, there)
        direction = Direction.OUTBOUND if leg.from_place == here else Direction.HOMEWARD
        hours = leg.hours_outbound if direction is Direction.OUTBOUND else leg.hours_homeward
        if hours is None:
            return None
        total += hours
    return total
