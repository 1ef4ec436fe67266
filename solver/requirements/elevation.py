"""How fast the party sleeps higher, held against the rule that the request names."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from solver.calculators.sleeping_elevation import (
    Finding,
    RuleName,
    mean_gain_m_per_night,
    sleeping_findings,
    sleeping_rule,
)
from solver.calculators.sleeping_elevation import Night as SleptNight
from solver.calculators.sleeping_elevation import SleepingRule as Rule
from solver.problem import Problem, SleepingRule, Timeline
from solver.requirements.figures import Figure, Input, Notice, Part
from solver.requirements.surroundings import PRACTICE, as_given, assumed, out_of_range

DEFAULT_RULE: RuleName = "wms"
WHY_WMS = f"guideline of wilderness physicians, the one most often named: {PRACTICE}"
ILL_FROM_M = 2500

_NAMES: dict[SleepingRule, RuleName] = {
    SleepingRule.WMS: "wms",
    SleepingRule.CDC: "cdc",
    SleepingRule.UIAA: "uiaa",
    SleepingRule.CAUTIOUS: "cautious",
}


def elevation(problem: Problem, timeline: Timeline) -> Part:
    """Gain of each night over the one before and what the rule says of it [m].

    People who sleep at the same elevations and carry to the same elevations are named once, under
    the first of them.
    """
    wanted = problem.conditions.sleeping_rule
    name = DEFAULT_RULE if wanted is None else _NAMES[wanted]
    named = as_given("sleeping_rule", name, "")
    if wanted is None:
        named = assumed("sleeping_rule", name, "", WHY_WMS)
    figures: list[Figure] = []
    notices: list[Notice] = []
    for nights, people in _alike(problem, timeline).items():
        about = (("person_id", people[0]), ("people", len(people)))
        rule = sleeping_rule(name=name)
        try:
            findings = sleeping_findings(nights=nights, rule=rule)
            figures += _gains(timeline, nights, people, named, rule)
        except ValueError as error:
            notices.append(out_of_range("sleeping_gain", about, error))
            continue
        notices += (_notice(finding, timeline, people, rule) for finding in findings)
        notices += _credited(nights, timeline, people, rule)
    notices += _cautions(problem, timeline)
    return Part(tuple(figures), tuple(notices))


def _alike(problem: Problem, timeline: Timeline) -> dict[tuple[SleptNight, ...], list[str]]:
    """People by the nights that they have; each night knows how high its day went."""
    metres = {place.place_id: float(place.elevation_m) for place in problem.route.places}
    highest: dict[tuple[int, str], float] = {}
    for trip in timeline.trips:
        reached = max(metres[trip.from_place], metres[trip.to_place])
        for person_id in trip.person_ids:
            key = (trip.day, person_id)
            highest[key] = max(reached, highest.get(key, reached))
    found: dict[tuple[SleptNight, ...], list[str]] = {}
    for person in problem.roster:
        who = person.person_id
        nights = tuple(
            SleptNight(metres[night.place_of(who)], highest.get((night.day, who)))
            for night in timeline.nights
        )
        if nights:
            found.setdefault(nights, []).append(who)
    return found


def _gains(
    timeline: Timeline,
    nights: tuple[SleptNight, ...],
    people: list[str],
    named: Input,
    rule: Rule,
) -> Iterator[Figure]:
    about = (("person_id", people[0]), ("people", len(people)))
    limits = (
        Input("threshold", rule.threshold_m, "m", named.is_default, rule.source),
        Input("largest_step", rule.largest_step_m, "m", named.is_default, rule.source),
    )
    status = "memory-unverified" if "memory-unverified" in rule.source else "quoted"
    if rule.source.endswith("; read"):
        status = "read"
    for index, (below, here) in enumerate(pairwise(nights), start=1):
        night = timeline.nights[index]
        yield Figure(
            "sleeping_gain",
            (("day", night.day), ("place_id", night.place_of(people[0])), *about),
            here.sleeping_m - below.sleeping_m,
            "m",
            "elevation of the night less that of the night before",
            rule.source,
            status,
            (
                named,
                *limits,
                as_given("sleeping_elevation", here.sleeping_m, "m"),
                as_given("night_before", below.sleeping_m, "m"),
            ),
        )
    yield Figure(
        "mean_sleeping_gain",
        about,
        mean_gain_m_per_night(nights=nights, threshold_m=rule.threshold_m),
        "m/night",
        "rise from the last camp below the threshold to the highest night, by nights",
        rule.source,
        status,
        (named, *limits),
    )


def _notice(finding: Finding, timeline: Timeline, people: list[str], rule: Rule) -> Notice:
    night = timeline.nights[finding.night_index]
    place_id = night.place_of(people[0])
    sentence = f"{place_id}, day {night.day}: {finding.sentence}"
    if finding.softened:
        sentence += " That carry and rest count in its favour (common practice, no source)."
    about = (("day", night.day), ("place_id", place_id), ("people", len(people)))
    return Notice(
        f"sleeping_{finding.kind}",
        (*about, ("person_id", people[0]), ("rule", rule.name)),
        f"{sentence} Source: {rule.source}.",
    )


def _credited(
    nights: tuple[SleptNight, ...], timeline: Timeline, people: list[str], rule: Rule
) -> Iterator[Notice]:
    """Days that went higher than their night: carry high, sleep low."""
    carried = [
        night.day
        for index, (night, slept) in enumerate(zip(timeline.nights, nights, strict=True))
        if slept.highest_m is not None
        and slept.highest_m > max(slept.sleeping_m, rule.threshold_m)
        and slept.sleeping_m >= nights[max(0, index - 1)].sleeping_m
    ]
    if carried:
        days = ", ".join(str(day) for day in carried)
        yield Notice(
            "sleeping_low_after_carry",
            (("person_id", people[0]), ("people", len(people))),
            f"Carried high and slept low on day {days}: the elevation reached by day is not "
            f"counted as a gain under the {rule.name} rule.",
        )


def _cautions(problem: Problem, timeline: Timeline) -> Iterator[Notice]:
    highest_m = max(
        (
            problem.route.place(place_id).elevation_m
            for night in timeline.nights
            for _, place_id in night.sleeps_at
        ),
        default=0,
    )
    if highest_m > ILL_FROM_M:
        yield Notice(
            "altitude_illness",
            (),
            f"The party sleeps up to {highest_m} m, where altitude illness can kill. This is "
            "planning arithmetic and no medical advice: what is safe for each person, and what "
            "to take or do about symptoms, is for a physician and the guide to say.",
            is_caution=True,
        )
