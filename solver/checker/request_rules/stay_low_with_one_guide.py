"""Stay low with one guide: who stays with the last guide sleeps no higher than the sleds go.

On trips with two guides or more: on each night at a place above the highest one that a sled leg
reaches, guides who have not gone down for good >= 2. A guide has gone down for good who sleeps
nearer home than the place and whose trips from then on all lead homeward.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.facts import Facts
from solver.checker.queries.telling import Run, runs
from solver.checker.queries.words import counted, listed
from solver.plan import Finding
from solver.problem import Direction, LegMode, Night

RULE = "stay_low_with_one_guide"


def stay_low_with_one_guide(facts: Facts) -> Iterator[Finding]:
    """For each high place, the nights that people spend there with too few guides left."""
    problem = facts.problem
    guides = [person.person_id for person in problem.everybody if person.is_guide]
    needed = problem.rules.whole("least_guides_high")
    if len(guides) < needed:
        return
    for place in problem.route.places:
        if place.elevation_m <= _sled_camp_m(facts):
            continue
        missing = []
        for night in facts.timeline.nights:
            left = [g for g in guides if not _gone(facts, g, night, place.place_id)]
            if set(night.sleepers_at(place.place_id)) and len(left) < len(guides):
                missing.append((night.day, needed - len(left)))
        for run in runs(missing):
            yield _finding(facts, place.place_id, run, needed)


def _sled_camp_m(facts: Facts) -> int:
    """Elevation of the highest place that a sled leg reaches, of the start where none is [m]."""
    problem = facts.problem
    reached = {problem.start_place}
    for leg in problem.route.legs:
        if leg.mode is LegMode.SLED:
            reached |= {leg.from_place, leg.to_place}
    return max(problem.route.place(place_id).elevation_m for place_id in reached)


def _gone(facts: Facts, guide_id: str, night: Night, place_id: str) -> bool:
    """Whether a guide has left, or sleeps nearer home than a place and goes up no more."""
    presence = facts.problem.person(guide_id).presence
    if presence.last_night is not None and night.day > presence.last_night:
        return True
    sleeps_at = night.place_of(guide_id)
    nearer = sleeps_at in facts.problem.route.way_home(place_id)[1:]
    return nearer and not any(
        trip.moment > night.moment
        and trip.direction is Direction.OUTBOUND
        and guide_id in trip.person_ids
        for trip in facts.timeline.trips
    )


def _finding(facts: Facts, place_id: str, run: Run, needed: int) -> Finding:
    night = facts.night(run.first_day)
    there = listed(list(night.sleepers_at(place_id)))
    left = needed - run.amount
    return Finding(
        RULE,
        f"{run.words} at {place_id}: {there} sleep above where the sleds go with "
        f"{counted(left, 'guide')} left of those who have not gone down for good, at least "
        f"{needed} needed so high",
        run.amount,
        "guides",
        (("place", place_id), *run.where),
        (
            "everybody goes down to where the sleds go, or lower, when the other guide leaves",
            "the guide who leaves comes back up before these nights",
            "one more guide on the roster who stays",
        ),
    )
