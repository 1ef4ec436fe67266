"""Faults of what a report says of days: nights spent, hours of trips, loads on a scale."""

from __future__ import annotations

from api_schema.report import HoursRequest
from service.translate.read import quantities
from service.translate.read.near_names import unknown_id_words
from service.translate.read.report_facts import Document, ReadReport, load_of

_SHORTEST_H, _LONGEST_H = 1 / 60 - 1e-9, 24.0
"""What a request takes as hours of a leg [h]."""


def examine_days(report: ReadReport) -> None:
    """Take down every fault of the days of a report."""
    _nights(report)
    _hours(report)
    _loads(report)


def _nights(report: ReadReport) -> None:
    kitchens = [g for g in report.problem.cook_groups if g.kitchen_of is None]
    places = [place.place_id for place in report.problem.route.places]
    for index, one in enumerate(report.asked.nights):
        pointer = f"/nights/{index}"
        if one.place not in places:
            words = unknown_id_words("place", one.place, places)
            report.fault(f"{pointer}/place", "unknown_id", words)
            continue
        ids = [g.cook_group_id for g in kitchens]
        if one.cook_group is not None and one.cook_group not in ids:
            words = unknown_id_words("cook group", one.cook_group, ids)
            report.fault(f"{pointer}/cook_group", "unknown_id", words)
            continue
        for kitchen in kitchens:
            is_named = one.cook_group in {None, kitchen.cook_group_id}
            if is_named and one.nights and one.place not in dict(kitchen.set_at):
                words = f"No night set of {kitchen.cook_group_id} is for {one.place}."
                report.fault(f"{pointer}/place", "no_night_set", words)


def _hours(report: ReadReport) -> None:
    seen: set[tuple[int, int, str]] = set()
    for index, one in enumerate(report.asked.hours):
        pointer = f"/hours/{index}"
        trips = trips_of(report, one)
        ways = {(trip["step"], trip["leg_id"]) for trip in trips}
        if not trips:
            words = "The plan has no such trip on that day."
            report.fault(f"{pointer}/day", "no_trip", words)
        elif len(ways) > 1:
            words = f"That fits {len(ways)} trips. Say which one with `step` or `person_id`."
            report.fault(pointer, "missing", words)
        elif (key := (one.day, *ways.pop())) in seen:
            report.fault(pointer, "duplicate_id", "This trip stands here twice. Give it once.")
        else:
            seen.add(key)
        if not _SHORTEST_H <= quantities.hours(one.time) <= _LONGEST_H:
            report.fault(f"{pointer}/time", "out_of_range", "Give a time from 1 min to 24 h.")


def trips_of(report: ReadReport, one: HoursRequest) -> list[Document]:
    """The trips of the plan that measured hours may be about."""
    return [
        trip
        for trip in report.plan["trips"]
        if trip["day"] == one.day
        and one.step in {None, trip["step"]}
        and (one.person_id is None or any(x["person_id"] == one.person_id for x in trip["loads"]))
    ]


def _loads(report: ReadReport) -> None:
    people = list(dict.fromkeys(p.person_id for p in report.problem.everybody))
    for index, one in enumerate(report.asked.loads):
        pointer = f"/loads/{index}"
        if one.person_id not in people:
            words = unknown_id_words("person", one.person_id, people)
            report.fault(f"{pointer}/person_id", "unknown_id", words)
        elif load_of(report, one.person_id, one.day, one.step) is None:
            step = "" if one.step is None else f" as step {one.step}"
            words = f"{one.person_id} makes no trip on day {one.day}{step}."
            report.fault(f"{pointer}/day", "no_trip", words)
