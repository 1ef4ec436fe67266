"""The fewest changes of a re-plan by trying every plan there is, on tiny worlds under way.

Loads of the trips to come are shared out in every way, the checker says which keep every rule, and
of those whose peak is low enough the fewest changes count.
"""

from __future__ import annotations

from dataclasses import replace
from itertools import product
from random import Random

from solver.checker import check_plan, check_request
from solver.checker.goals import peak_load
from solver.checker.ledger.replay import replay
from solver.outcome import Limits
from solver.plan import Finding, Load, Plan, Stowed, TripLoads
from solver.problem import Change, History, Problem, Reserve, ReserveKind
from solver.quantities import FRACTION_GRID
from tests.rules.worlds import EVERY_NIGHT, MEAL, item, person, world

STEADY = Limits(wall_seconds=20.0, workers=1, seed=1)
DAYS = ("strip-c1 c1-strip", "strip-c1-c2 c2-c1-strip")


def drawn_world(seed: int) -> Problem:
    """Two or three people and up to five units, on the way out and home again."""
    chance = Random(seed)
    days = chance.choice(DAYS)
    long = days == DAYS[1]
    people = tuple(
        person(f"m{n}", pack_g=chance.choice((4_000, 5_000, 7_000)))
        for n in range(1, 3 if long else chance.choice((3, 4)))
    )
    gear = tuple(
        item(f"i{n}", EVERY_NIGHT, mass_g=chance.choice((500, 900, 1_300, 2_100)))
        for n in range(chance.randint(1, 3))
    )
    meal = replace(MEAL, gross_g=chance.choice((400, 700)), bag_count=2 * len(people))
    kept = (Reserve("c2" if long else "c1", "g1", ReserveKind.STORM, 1, "meal"),)
    return world(days, people=people, gear=gear, night_sets=(meal,), reserves=kept)


def with_a_bag_lost(problem: Problem, place_id: str, *, weak: bool) -> Problem:
    """The evening of day 1: one bag is gone, the reserve is let go, and the first may be weak.

    Who is weak carries 1 kg at most.
    """
    first, *others = problem.roster
    if weak:
        first = replace(first, load_limit_g=1_000, load_limit_reason="weak")
    return replace(
        problem,
        roster=(first, *others),
        reserves=(),
        history=History(1, changes=(Change(place_id, "g1/meal", -1),)),
    )


def fewest_changes(problem: Problem, followed: Plan, standing: dict[str, int]) -> int | None:
    """The fewest units with others than before, over every plan that may be chosen; None for none.

    `standing` are the units that go home. A plan may be chosen with a peak no higher than what
    the followed plan has for the rest, or the least of all with the tolerance.
    """
    request = check_request(problem)
    trips = [t for t in request.facts.timeline.trips if not problem.is_over(t.day)]
    names = [p.person_id for p in problem.roster]
    units = [unit for unit, count in standing.items() for _ in range(count)]
    found: list[tuple[int, int]] = []
    seen: set[tuple[tuple[tuple[str, str], ...], ...]] = set()
    for shared in product(product(names, repeat=len(units)), repeat=len(trips)):
        key = tuple(tuple(sorted(zip(units, who, strict=True))) for who in shared)
        if key in seen:
            continue
        seen.add(key)
        planned = _plan(problem, followed, dict(zip([t.index for t in trips], key, strict=True)))
        report = check_plan(request, planned, followed)
        if not any(_is_of_the_loads(finding) for finding in report.findings):
            values = dict(report.goals)
            found.append((values["peak_load"], values["closeness"]))
    if not found:
        return None
    least = min(peak for peak, _ in found)
    allowed = max(
        least + least * STEADY.near_tolerance // FRACTION_GRID,
        peak_load(replay(request.facts, followed)),
    )
    return min(close for peak, close in found if peak <= min(allowed, FRACTION_GRID))


def _is_of_the_loads(finding: Finding) -> bool:
    """Whether a finding is about more than what the plan claims to stand where by night.

    The plans tried here claim nothing of the nights to come.
    """
    return finding.rule_id != "units_conserved" or "step" in dict(finding.where)


def _plan(problem: Problem, followed: Plan, shared: dict[int, tuple[tuple[str, str], ...]]) -> Plan:
    """The followed plan with the loads of some trips shared out otherwise."""
    masses = {i.unit_id: (i.mass_g, i.packed_volume_ml) for i in problem.gear}
    masses |= {s.unit_id: (s.gross_g, s.volume_ml) for s in problem.night_sets}
    trips: list[TripLoads] = []
    for index, trip in enumerate(followed.trips):
        if index not in shared:
            trips.append(trip)
            continue
        loads: list[Load] = []
        for load in trip.loads:
            mine = [unit for unit, who in shared[index] if who == load.person_id]
            pack = tuple(
                Stowed(unit, mine.count(unit), *masses[unit]) for unit in dict.fromkeys(mine)
            )
            loads.append(replace(load, pack=pack))
        trips.append(replace(trip, loads=tuple(loads)))
    return replace(
        followed, trips=tuple(trips), stock=tuple(e for e in followed.stock if e.day == 0)
    )
