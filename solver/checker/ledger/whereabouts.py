"""Where everybody is once the trips of a moment have arrived, and what they carry to drink."""

from __future__ import annotations

from solver.problem import PlaceKind, Problem, Timeline


def read_whereabouts(problem: Problem, timeline: Timeline) -> tuple[dict[str, str], ...]:
    """The place of each person after each moment; entry 0 is before anybody moves."""
    first_day = problem.calendar.days[0]
    here: dict[str, str] = {}
    for person in problem.everybody:
        met_at = person.presence.place_id if person.presence.first_day > 1 else None
        here[person.person_id] = met_at or first_day.visit_of(person.rope_team_id).places[0]
    after = [here]
    for moment in range(1, timeline.last_moment + 1):
        day = next((trip.day for trip in timeline.trips if trip.moment == moment), 0)
        gone = {p.person_id for p in problem.left if day > (p.presence.last_day or day)}
        here = {person: place for person, place in here.items() if person not in gone}
        for trip in timeline.trips:
            if trip.moment == moment:
                here.update(dict.fromkeys(trip.person_ids, trip.to_place))
        after.append(here)
    return tuple(after)


def read_waters(problem: Problem) -> dict[tuple[str, int], int]:
    """The water that each person carries on each trip of a day, by person and day [g].

    A day on which the person's rope team visits a summit has its own amount where given.
    """
    summits = {p.place_id for p in problem.route.places if p.kind is PlaceKind.SUMMIT}
    waters: dict[tuple[str, int], int] = {}
    for number, day in enumerate(problem.calendar.days, start=1):
        for person in problem.everybody:
            if not person.presence.travels_on(number):
                continue
            visits_summit = bool(summits & set(day.visit_of(person.rope_team_id).places))
            summit_g = person.summit_water_g if visits_summit else None
            waters[person.person_id, number] = person.water_g if summit_g is None else summit_g
    return waters
