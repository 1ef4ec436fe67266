"""What an answer says of somebody who has to go down: who with whom, with what, and what not."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from api_schema.evacuation_answer import EvacuationAnswer, PlacedUnitsAnswer
from api_schema.load_answer import TripAnswer
from service.translate.read.requests import ReadRequest
from service.translate.write.stowed import StowedWriter
from service.translate.write.trips import write_trip
from service.translate.write.units import kilograms
from solver.checker.queries.words import listed
from solver.outcome import Infeasible, Solved
from solver.problem import read_timeline
from solver.rest.hurt import Evacuation, How
from solver.rest.result import Rest

NOT_ALONE = (
    "People on the spot decide. Call the rescue services, and ask a physician: this is no medical "
    "advice."
)


_VERBS = {How.WALKS: "walks", How.HAULED: "is hauled", How.NOT_HURT: "goes"}


def write_evacuation(
    read: ReadRequest, evacuation: Evacuation, stay: Rest | None
) -> EvacuationAnswer:
    """The part of an answer that is about those who go down."""
    haul = evacuation.haul
    trips = _trips(read, evacuation.down)
    return EvacuationAnswer(
        say=list(_say(evacuation, trips, stay)),
        possible=evacuation.is_possible,
        person_id=evacuation.hurt.person_id,
        how=evacuation.hurt.how.value,
        place=evacuation.place_id,
        leaving=list(evacuation.leaving),
        staying=list(evacuation.staying),
        takes=[_units(*one) for one in evacuation.taken],
        left_behind=[_units(*one) for one in evacuation.left_behind],
        sleds_left=list(evacuation.sleds_left),
        missing=list(evacuation.missing),
        outside=list(evacuation.outside),
        each_hauler_pulls_kg=None if haul is None else kilograms(haul.share_g),
        not_held=_not_held(evacuation.down),
        conflicts=list(_conflicts(evacuation.down)),
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


def _conflicts(down: Rest | None) -> Iterator[str]:
    if down is not None and isinstance(down.outcome, Infeasible):
        yield from (conflict.message for conflict in down.outcome.conflicts)


def _not_held(down: Rest | None) -> list[str]:
    """Rules that their plan breaks and that were only advisories to them."""
    if down is None or not isinstance(down.outcome, Solved):
        return []
    waived = dict(down.problem.rules.waived)
    broken = (remark.finding.rule_id for remark in down.outcome.remarks)
    return list(dict.fromkeys(rule_id for rule_id in broken if rule_id in waived))


def _say(evacuation: Evacuation, trips: list[TripAnswer], stay: Rest | None) -> Iterator[str]:
    """What to do, in sentences: whether it can be done, who goes, who stays, whom to call."""
    who, companions = evacuation.leaving[0], evacuation.leaving[1:]
    along = f" with {listed(companions)}" if companions else ""
    if evacuation.hurt.how is How.FLIES:
        yield f"{who} waits at {evacuation.place_id} to be fetched{along}."
    elif evacuation.is_possible:
        yield f"{who} {_VERBS[evacuation.hurt.how]} down{along}. {_first_trip(trips)}"
    else:
        yield f"{who} cannot be brought down{along} by your own means: {_why(evacuation)}."
    for one in evacuation.outside:
        yield f"Help from outside would need to bring: {one}."
    if not evacuation.staying:
        yield "Nobody stays. What they do not take is left behind."
    elif stay is not None and not stay.is_solved:
        yield (
            f"{listed(evacuation.staying)} cannot go on as planned. Send a calendar for them that "
            "goes down, or let everybody go."
        )
    else:
        yield f"{listed(evacuation.staying)} can stay and go on. This answer has their plan."
    if evacuation.hurt.how is not How.NOT_HURT:
        yield NOT_ALONE


def _why(evacuation: Evacuation) -> str:
    """The first reason why those who leave cannot get down by themselves."""
    if evacuation.haul is not None and evacuation.haul.cannot:
        return evacuation.haul.cannot[0]
    conflicts = [message.rstrip(".") for message in _conflicts(evacuation.down)]
    return conflicts[0] if conflicts else "no plan was found in time"


def _first_trip(trips: list[TripAnswer]) -> str:
    """Their first move and who has most of it."""
    if not trips:
        return ""
    first = trips[0]
    heaviest = max(first.loads, key=lambda load: load.total_kg)
    return (
        f"First, on day {first.day}: {first.from_} to {first.to}, at most "
        f"{heaviest.total_kg:.1f} kg ({heaviest.person_id})."
    )
