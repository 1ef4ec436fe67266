"""The day on which most blows end a plan, and what one more of what would do against that.

What is tried stands where the blow strikes, on that day: one more of each shared thing that was
lost, or one more night of food and of fuel for each cook group. A remedy is counted for a blow
where the plan then stands, by arithmetic or after a re-plan.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence

from solver.checker.ledger.replay import Replay
from solver.problem import Change, CookGroup, Problem, ReserveKind
from solver.quantities import share_up, units_up
from solver.stress.blows import Blow
from solver.stress.report import OneMore, Settled, Verdict, Weakest
from solver.stress.struck import struck
from solver.stress.verdicts import Clock, by_arithmetic, by_planning

LONGEST_TRY_SECONDS = 3.0
"""Longest search for what one remedy does against one blow [s]."""

ARITHMETIC_SECONDS = 0.5
"""Time that must be left for one more try [s]."""


def weakest_day(
    base: Replay,
    results: Sequence[tuple[Blow, Settled]],
    may_use: frozenset[ReserveKind],
    clock: Clock,
) -> Weakest | None:
    """The first of the days with most blows that end the plan; None where every blow is stood.

    Days with as many are told apart by those not settled, then by those that need a re-plan.
    """
    counts: dict[int, Counter[Verdict]] = {}
    for blow, settled in results:
        counts.setdefault(blow.day, Counter())[settled.verdict] += 1

    def weakness(day: int) -> tuple[int, int, int]:
        found = counts[day]
        return found[Verdict.NO], found[Verdict.NOT_SETTLED], found[Verdict.AFTER_REPLAN]

    worst = max(counts, key=lambda day: (weakness(day), -day), default=None)
    if worst is None or not any(weakness(worst)):
        return None
    ended = [b for b, s in results if b.day == worst and s.verdict is Verdict.NO]
    return Weakest(worst, *weakness(worst), tuple(_remedies(base, ended, may_use, clock)))


def _remedies(
    base: Replay, ended: Sequence[Blow], may_use: frozenset[ReserveKind], clock: Clock
) -> Iterator[OneMore]:
    """What helps against at least one blow, the most helpful first."""
    problem = base.facts.problem
    shared = {i.unit_id for i in problem.gear if i.owner_id is None}
    lost = dict.fromkeys(unit for b in ended for _, unit, _ in b.lost if unit in shared)
    groups = dict.fromkeys(group.cook_group_id for group in problem.cook_groups)
    tried = [
        *(_try(base, ended, (group_id, 1), may_use, clock) for group_id in groups),
        *(_try(base, ended, (unit_id, 0), may_use, clock) for unit_id in lost),
    ]
    useful = (one for one in tried if one.helps)
    yield from sorted(useful, key=lambda one: (-one.helps, one.not_settled))


def _try(
    base: Replay,
    ended: Sequence[Blow],
    added: tuple[str, int],
    may_use: frozenset[ReserveKind],
    clock: Clock,
) -> OneMore:
    thing, nights = added
    found: Counter[Verdict] = Counter()
    problem = base.facts.problem
    for blow in ended:
        place_id = blow.places[0]
        more: tuple[Change, ...] = (Change(place_id, thing, 1),)
        if nights:
            more = _night(problem, problem.cook_group(thing), place_id)
        elif thing not in {unit for _, unit, _ in blow.lost}:
            continue
        if clock.left() < ARITHMETIC_SECONDS:
            found[Verdict.NOT_SETTLED] += 1
            continue
        state = struck(base, blow, more)
        verdict = by_arithmetic(base, state, may_use).verdict
        if verdict is Verdict.NOT_SETTLED:
            seconds = min(clock.left() / 2, LONGEST_TRY_SECONDS)
            verdict = by_planning(base, state, may_use, seconds, clock).verdict
        found[verdict] += 1
    helps = found[Verdict.STANDS] + found[Verdict.AFTER_REPLAN]
    return OneMore(thing, nights, helps, found[Verdict.NOT_SETTLED])


def _night(problem: Problem, group: CookGroup, place_id: str) -> tuple[Change, ...]:
    """One night of food and fuel of a cook group, in whole bags and containers.

    The food is a storm set where the group has one, else what it eats at the place.
    """
    people = len(problem.members(group.cook_group_id))
    own = [one for one in problem.night_sets if one.cook_group_id == group.cook_group_id]
    eaten_here = dict(group.set_at).get(place_id)
    chosen = min(own, key=lambda one: (not one.storm, one.set_id != eaten_here), default=None)
    if chosen is None:
        return ()
    bags = Change(place_id, chosen.unit_id, units_up(amount=people, per_unit=chosen.sets_per_bag))
    burnt_ml = share_up(amount=people * chosen.fuel_ml, percent=100 + problem.fuel_margin_percent)
    kinds = problem.cook_group(group.kitchen_id).containers
    if not kinds or not burnt_ml:
        return (bags,)
    cans = units_up(amount=burnt_ml, per_unit=kinds[0].content_ml)
    return (bags, Change(place_id, kinds[0].unit_id, cans))
