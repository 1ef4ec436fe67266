"""Calendars on a route of three camps by enumeration with whole solves, beside the search.

    python -m tests.questions.calendar_enumeration 1

solves all calendars of up to two carries on each of three legs and up to one day of rest at each
of three camps, 216 of them, one by one to a proven peak, and compares the least peak of at most
so many days with the curve that the search finds. The argument is how many seeds.
"""

from __future__ import annotations

import sys
from dataclasses import replace
from itertools import pairwise
from random import Random

from solver.outcome import Limits, Solved
from solver.pipeline import plan
from solver.problem import Container, CookGroup, Need, NeedKind, NightSet, Problem
from solver.progress import Watch
from solver.questions.calendars.search import find_calendars
from solver.questions.calendars.space import CalendarRules, Skeleton
from tests.rules.worlds import EVERY_NIGHT, item, person, world

EXACT = Limits(wall_seconds=20.0, workers=1, seed=1, gap=0, racing=True)


def three_camps(seed: int, camps: int = 3) -> Problem:
    """Two people with food, fuel and boxes to carry to the highest of some camps, and home."""
    draw = Random(f"calendars {seed}")
    names = ["strip", "c1", "c2", "c3"][: camps + 1]
    up = " ".join(f"{a}-{b}" for a, b in pairwise(names))
    meal = NightSet("meal", "g1", draw.randint(600, 1_200), 50, 100, 1_000, draw.randint(100, 300))
    can = Container("can", "g1", content_ml=1_000, tare_g=150, volume_ml=1_200)
    at_top = Need(NeedKind.AT_PLACE, up_to=names[-1], may_go_ahead=True)
    return world(
        f"{up} {'-'.join(reversed(names))}",
        people=(person("m1", pack_g=30_000), person("m2", pack_g=26_000)),
        gear=(
            item("box", at_top, mass_g=1_000, count=draw.randint(8, 14)),
            item("tent", EVERY_NIGHT, mass_g=4_000),
            item("kit", mass_g=6_000, owner_id="m1"),
            item("kit", mass_g=5_000, owner_id="m2"),
        ),
        groups=(CookGroup("g1", tuple((name, "meal") for name in names), (can,)),),
        night_sets=(meal,),
    )


def enumerated(problem: Problem, rules: CalendarRules) -> dict[int, int]:
    """For each number of days the least peak over all calendars of at most so many."""
    skeleton = Skeleton.of(problem)
    assert skeleton is not None
    moves = len(skeleton.moves)
    least: dict[int, int] = {}
    for choice in rules.box(skeleton).choices():
        days = skeleton.days_of(choice)
        calendar = skeleton.calendar(choice[:moves], choice[moves:])
        outcome = plan(replace(problem, calendar=calendar), EXACT)
        if isinstance(outcome, Solved) and days <= rules.most_days:
            least[days] = min(outcome.peak.value, least.get(days, outcome.peak.value))
    best, curve = 10_001, {}
    for days in sorted(least):
        if least[days] < best:
            best = curve[days] = least[days]
    return curve


def searched(problem: Problem, rules: CalendarRules) -> tuple[dict[int, int], int, int]:
    """The same by the search, with how many calendars there are and how many it solved."""
    found = find_calendars(problem, rules, EXACT, Watch(1e6))
    assert found is not None
    curve = {point.days: point.best.peak for point in found.curve}
    assert all(point.gap == 0 for point in found.curve)
    return curve, found.allowed, found.solved


def main(seeds: int) -> int:
    """Compare so many seeds; 1 where any curve differs."""
    wrong = 0
    rules = CalendarRules(most_days=30, carries=(0, 2), rests=(0, 1))
    for seed in range(seeds):
        problem = three_camps(seed)
        curve, allowed, solved = searched(problem, rules)
        wanted = enumerated(problem, rules)
        wrong += curve != wanted
        sys.stdout.write(f"seed {seed}: {allowed} calendars, {solved} solved, {curve}, {wanted}\n")
        sys.stdout.flush()
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main(int(sys.argv[1])))
