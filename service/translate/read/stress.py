"""A stress test of the wire, read: its fields, and the chances that it gives."""

from __future__ import annotations

from collections.abc import Collection, Iterator

from pydantic import ValidationError

from api_schema.stress_request import OddsRequest, StressTestRequest
from service.errors import Fault, RequestFaults
from service.translate.read.wire_faults import wire_faults
from solver.outlook.storms import StormChance, StormChanceError
from solver.problem import Route


def read_blows(
    document: dict[str, object],
    place_ids: Collection[str],
    legs: Collection[frozenset[str]] = (),
) -> StressTestRequest:
    """The stress test that a document asks for of a plan with these places and legs between them.

    Raises RequestFaults with every fault.
    """
    try:
        asked = StressTestRequest.model_validate(document)
    except ValidationError as error:
        raise RequestFaults(wire_faults(error, StressTestRequest)) from None
    faults = () if asked.odds is None else tuple(_faults(asked.odds, place_ids, legs))
    if faults:
        raise RequestFaults(faults)
    return asked


def storm_chances(asked: OddsRequest) -> dict[str, StormChance]:
    """The weather of each place that is named; StormChanceError for what no weather can have."""
    return {
        one.place: StormChance(one.share, one.mean_days or 1 / (1 - one.share))
        for one in asked.storms
    }


def slow_legs(asked: OddsRequest, route: Route) -> dict[str, float]:
    """The chance of each leg that is named, by its id [1]."""
    return {route.leg_between(one.from_, one.to).leg_id: one.chance for one in asked.slow}


def _faults(
    asked: OddsRequest, place_ids: Collection[str], legs: Collection[frozenset[str]]
) -> Iterator[Fault]:
    named = {
        "storms": [one.place for one in asked.storms],
        "lost": [one.place for one in asked.lost],
        "spoilt": [one.place for one in asked.spoilt],
    }
    for field, places in named.items():
        for number, place_id in enumerate(places):
            if place_id not in place_ids:
                pointer = f"/odds/{field}/{number}/place"
                yield Fault(pointer, "unknown_id", "The plan's route has no such place.")
    for number, one in enumerate(asked.slow):
        if frozenset({one.from_, one.to}) not in legs:
            pointer = f"/odds/slow/{number}"
            yield Fault(pointer, "unknown_id", "The plan's route has no leg between these places.")
    for number, storm in enumerate(asked.storms):
        try:
            StormChance(storm.share, storm.mean_days or 1 / (1 - storm.share))
        except StormChanceError as error:
            pointer = f"/odds/storms/{number}/mean_days"
            yield Fault(pointer, "out_of_range", f"No weather is like that: {error}.")
