"""What a plan says of masses, volumes, water, lunch and stock, against the replay.

A plan's figures are claims. Those that differ are found once for each thing they are about,
with how often and the largest difference, however many entries repeat them. What is over at the
moment of a count is not asked: it would hide the same difference in the days to come.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator

from solver.checker.ledger.loads import Weights
from solver.checker.ledger.replay import AS_MANY_AS_NEEDED, Replay
from solver.checker.ledger.times import START, Time, after_night, end_of
from solver.checker.queries.differences import Differences
from solver.checker.queries.telling import Where, trip_where, trip_words
from solver.plan import Finding, Stowed

RULE = "units_conserved"


def load_claims(replay: Replay) -> Iterator[Finding]:
    """Masses and volumes of what is loaded, and the water and lunch that people carry."""
    differences = Differences(RULE)
    for record in replay.records:
        trip = record.trip
        if replay.facts.problem.is_over(trip.day):
            continue
        burdens = {b.person.person_id: b for b in record.burdens}
        for load in record.planned.loads if record.planned is not None else ():
            where = (*trip_where(trip), ("person", load.person_id))
            at = f"load of {load.person_id} on {trip_words(trip)}"
            _weigh_claims(differences, (*load.pack, *load.sled), record.weights, (at, where))
            burden = burdens.get(load.person_id)
            if burden is None:
                continue
            for word, claimed, true in (
                ("water", load.water_g, burden.water_g),
                ("lunch", load.lunch_g, burden.lunch_g),
            ):
                differences.add(
                    about=f"{word} of {load.person_id}",
                    unit="g",
                    claimed=claimed,
                    true=true,
                    words=f"{word} in the {at}",
                    where=where,
                )
    yield from differences.findings()


def stock_claims(replay: Replay) -> Iterator[Finding]:
    """What the plan says stands where; nothing is asked of a plan without any stock."""
    if not replay.plan.stock:
        return
    times = _times(replay)
    claimed: dict[tuple[int, str], list[Stowed]] = {}
    for entry in replay.plan.stock:
        if not _is_over(replay, entry.day):
            claimed.setdefault((entry.day, entry.place_id), []).extend(entry.units)
    places = [place.place_id for place in replay.facts.problem.route.places]
    differences = Differences(RULE)
    for (day, place_id), units in claimed.items():
        where = (("day", day), ("place", place_id))
        at = f"stock of {place_id} on day {day}"
        if day in times and place_id in places:
            _weigh_claims(differences, units, replay.facts.weights(day), (at, where))
        else:
            count = max(sum(abs(s.count) for s in units), 1)
            words = f"{at}: the expedition has no such day or place"
            yield Finding(RULE, words, count, "units", where)
    for day, time in times.items():
        if _is_over(replay, day):
            continue
        for place_id, standing in _standing(replay, time, places).items():
            units = claimed.get((day, place_id), [])
            if units or not standing:
                _count_claims(replay, differences, (day, place_id), units, standing)
            else:
                where = (("day", day), ("place", place_id))
                words = f"stock of {place_id} on day {day}: the plan leaves it out"
                yield Finding(RULE, words, sum(standing.values()), "units", where)
    yield from differences.findings()


def _count_claims(
    replay: Replay,
    differences: Differences,
    at: tuple[int, str],
    units: Iterable[Stowed],
    standing: Counter[str],
) -> None:
    day, place_id = at
    claimed: Counter[str] = Counter()
    for stowed in units:
        claimed[stowed.unit_id] += stowed.count
    for unit_id in sorted((claimed.keys() | standing.keys()) & replay.facts.units.keys()):
        count, true = claimed[unit_id], standing[unit_id]
        if count != true and true < AS_MANY_AS_NEEDED // 2:
            differences.add(
                about=unit_id,
                unit="units",
                claimed=count,
                true=true,
                words=f"{unit_id} in the stock of {place_id} on day {day}",
                where=(("day", day), ("place", place_id), ("unit", unit_id)),
            )


def _times(replay: Replay) -> dict[int, Time]:
    """The time that each day's stock is about: the start, after each night, the end."""
    times = {0: START}
    times.update({night.day: after_night(night) for night in replay.facts.timeline.nights})
    times[len(replay.facts.problem.calendar.days)] = end_of(replay.facts.timeline)
    return times


def _is_over(replay: Replay, day: int) -> bool:
    """Whether the stock of a day is that of a night before the count."""
    history = replay.facts.problem.history
    return history is not None and day <= history.nights


def _standing(replay: Replay, time: Time, places: Iterable[str]) -> dict[str, Counter[str]]:
    standing: dict[str, Counter[str]] = {place: Counter() for place in places}
    for unit_id, course in replay.courses.items():
        for place_id, count in course.at(time).items():
            if count:
                standing[place_id][unit_id] = count
    return standing


def _weigh_claims(
    differences: Differences, units: Iterable[Stowed], weights: Weights, place: tuple[str, Where]
) -> None:
    """Compare what units are said to weigh and take with what they do, at a place in words."""
    at, where = place
    for stowed in units:
        weight = weights.get(stowed.unit_id)
        if weight is None or weight == (stowed.mass_g, stowed.volume_ml):
            continue
        for word, unit, claimed, true in (
            ("mass", "g", stowed.mass_g, weight[0]),
            ("volume", "mL", stowed.volume_ml, weight[1]),
        ):
            differences.add(
                about=stowed.unit_id,
                unit=unit,
                claimed=claimed,
                true=true,
                words=f"{word} of {stowed.unit_id} in the {at}",
                where=(*where, ("unit", stowed.unit_id)),
            )
