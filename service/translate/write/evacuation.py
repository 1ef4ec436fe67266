"""What an answer says of somebody who has to go down: who with whom, with what, and what not."""

from __future__ import annotations

from dataclasses import replace

from api_schema.evacuation_answer import EvacuationAnswer, PlacedUnitsAnswer
from api_schema.load_answer import TripAnswer
from service.translate.read.requests import ReadRequest
from service.translate.write.evacuation_words import evacuation_words, reasons
from service.translate.write.stowed import StowedWriter
from service.translate.write.trips import write_trip
from service.translate.write.units import kilograms
from solver.outcome import Solved
from solver.problem import read_timeline
from solver.rest.hurt import Evacuation
from solver.rest.result import Rest


def write_evacuation(
    read: ReadRequest, evacuation: Evacuation, stay: Rest | None
) -> EvacuationAnswer:
    """The part of an answer that is about those who go down."""
    haul, wait, limit = evacuation.haul, evacuation.until_fetched, evacuation.limit
    trips = _trips(read, evacuation.down)
    return EvacuationAnswer(
        say=list(evacuation_words(evacuation, trips, stay)),
        possible=evacuation.is_possible,
        person_id=evacuation.hurt.person_id,
        how=evacuation.hurt.how.value,
        place=evacuation.place_id,
        leaving=list(evacuation.leaving),
        staying=list(evacuation.staying),
        waits_with=[] if wait is None else list(wait.with_them),
        stays_until_fetched=[] if wait is None else [_units(*one) for one in wait.things],
        load_limit_kg=None if limit is None else kilograms(limit.most_g),
        load_limit_why=None if limit is None else limit.why,
        takes=[_units(*one) for one in evacuation.taken],
        left_behind=[_units(*one) for one in evacuation.left_behind],
        sleds_left=list(evacuation.sleds_left),
        missing=[*evacuation.missing, *(wait.missing if wait is not None else ())],
        outside=list(evacuation.outside),
        each_hauler_pulls_kg=None if haul is None else kilograms(haul.share_g),
        not_held=_not_held(evacuation.down),
        conflicts=list(reasons(evacuation.down)),
        trips=trips,
    )


def _units(place: str, unit_id: str, count: int) -> PlacedUnitsAnswer:
    return PlacedUnitsAnswer(place=place, unit_id=unit_id, count=count)


def _trips(read: ReadRequest, down: Rest | None) -> list[TripAnswer]:
    """The trips to come of those who leave."""
    if down is None or not isinstance(down.outcome, Solved):
        return []
    theirs = replace(read, problem=down.problem, timeline=read_timeline(down.problem))
    units = StowedWriter(read.names)
    return [
        write_trip(theirs, trip, told, units)
        for trip, told in zip(theirs.timeline.trips, down.outcome.plan.trips, strict=True)
        if not down.problem.is_over(trip.day)
    ]


def _not_held(down: Rest | None) -> list[str]:
    """Rules that their plan breaks and that were only advisories to them."""
    if down is None or not isinstance(down.outcome, Solved):
        return []
    waived = dict(down.problem.rules.waived)
    broken = (remark.finding.rule_id for remark in down.outcome.remarks)
    return list(dict.fromkeys(rule_id for rule_id in broken if rule_id in waived))
