"""Reserves held: food and unopened fuel of each reserve stand at its place, untouched.

After each night on which reserves of a cook group are held at a place:
bags of the set x sets a bag >= sum of nights x people over the reserves with that set, and
content of a kitchen's full containers >= sum over the reserves of all who eat from it of
nights x people x fuel x (1 + margin), each rounded up. The amount is in nights of the largest of
these reserves, rounded up.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from solver.checker.ledger.replay import Replay
from solver.checker.ledger.times import after_night
from solver.checker.queries.holdings import held, unopened_ml
from solver.checker.queries.telling import Run, Where, litres, runs
from solver.plan import Finding
from solver.problem import CookGroup, Problem, Reserve, ReserveKind
from solver.quantities import share_up, units_up

RULE = "reserves_held"


@dataclass(frozen=True, slots=True)
class _Held:
    """A reserve on one night, with the people for whom it is held."""

    reserve: Reserve
    people: int

    @property
    def sets(self) -> int:
        return self.reserve.nights * self.people

    def fuel_ml(self, problem: Problem, nights: int) -> int:
        night_set = problem.night_set(self.reserve.cook_group_id, self.reserve.set_id)
        return share_up(
            amount=nights * self.people * night_set.fuel_ml,
            percent=100 + problem.fuel_margin_percent,
        )


def reserves_held(replay: Replay) -> Iterator[Finding]:
    """Food and fuel that reserves lack, in nights, one finding for each run of nights."""
    problem = replay.facts.problem
    for kitchen in problem.cook_groups:
        of_kitchen: dict[str, dict[int, list[_Held]]] = {}
        for group in problem.cook_groups:
            if (group.kitchen_of or group.cook_group_id) != kitchen.cook_group_id:
                continue
            own = [r for r in problem.reserves if r.cook_group_id == group.cook_group_id]
            for place_id in dict.fromkeys(reserve.place_id for reserve in own):
                here = [reserve for reserve in own if reserve.place_id == place_id]
                due = _due(replay, group, here)
                for set_id in dict.fromkeys(reserve.set_id for reserve in here):
                    yield from _food(replay, group, place_id, set_id, due)
                together = of_kitchen.setdefault(place_id, {})
                for day, reserves in due.items():
                    together.setdefault(day, []).extend(reserves)
        for place_id, together in of_kitchen.items():
            yield from _fuel(replay, kitchen, place_id, together)


def _due(replay: Replay, group: CookGroup, reserves: list[Reserve]) -> dict[int, list[_Held]]:
    """By night, the reserves of a group at one place that must be there after it."""
    route = replay.facts.problem.route
    members = {p.person_id for p in replay.facts.problem.members(group.cook_group_id)}
    place_id = reserves[0].place_id
    here: dict[int, int] = {}
    outward: list[int] = []
    for night in replay.facts.timeline.nights:
        places = [place for person, place in night.sleeps_at if person in members]
        here[night.day] = places.count(place_id)
        if any(route.is_at_or_beyond(place, place_id) for place in places):
            outward.append(night.day)
    nights_here = [day for day, people in here.items() if people]
    due: dict[int, list[_Held]] = {}
    for day, sleepers in here.items():
        is_left = bool(nights_here) and nights_here[0] <= day <= outward[-1]
        most = max(here.values()) if is_left else 0
        held_for = [(each, _people(each, len(members), sleepers, most)) for each in reserves]
        due[day] = [_Held(reserve, people) for reserve, people in held_for if people]
    return due


def _people(reserve: Reserve, members: int, here: int, most: int) -> int:
    """For how many a reserve is held on a night on which so many of the group sleep there [1].

    `most` is the most that ever sleep there, from their first night until they come down.
    """
    match reserve.kind:
        case ReserveKind.STORM:
            return here
        case ReserveKind.DESCENT:
            return most
        case ReserveKind.BASE_WAIT:
            return members
        case ReserveKind.EVACUATION:
            return min(here, members if reserve.people is None else reserve.people)


def _food(
    replay: Replay, group: CookGroup, place_id: str, set_id: str, due: dict[int, list[_Held]]
) -> Iterator[Finding]:
    night_set = replay.facts.problem.night_set(group.cook_group_id, set_id)
    worth = {night_set.unit_id: night_set.sets_per_bag}
    missing: dict[int, int] = {}
    nights: dict[int, int] = {}
    for day, reserves in due.items():
        own = [each for each in reserves if each.reserve.set_id == set_id]
        there = held(replay, worth, (place_id,), after_night(replay.facts.night(day)))
        missing[day] = sum(each.sets for each in own) - there
        if missing[day] > 0:
            most = max(each.people for each in own)
            nights[day] = units_up(amount=missing[day], per_unit=most)
    for run in runs(missing.items()):
        yield _finding(
            run,
            nights=nights[run.first_day],
            at=f"reserve of cook group {group.cook_group_id} at {place_id}",
            words=f"{run.amount} night sets {set_id} too few",
            where=(("place", place_id), ("unit", night_set.unit_id)),
        )


def _fuel(
    replay: Replay, group: CookGroup, place_id: str, due: dict[int, list[_Held]]
) -> Iterator[Finding]:
    worth = unopened_ml(replay.facts, group.cook_group_id)
    missing: dict[int, int] = {}
    nights: dict[int, int] = {}
    for day, reserves in due.items():
        there_ml = held(replay, worth, (place_id,), after_night(replay.facts.night(day)))
        needs_ml = [each.fuel_ml(replay.facts.problem, each.reserve.nights) for each in reserves]
        missing[day] = sum(needs_ml) - there_ml
        if missing[day] > 0:
            most_ml = max(each.fuel_ml(replay.facts.problem, 1) for each in reserves)
            nights[day] = units_up(amount=missing[day], per_unit=most_ml)
    for run in runs(missing.items()):
        yield _finding(
            run,
            nights=nights[run.first_day],
            at=f"reserve of cook group {group.cook_group_id} at {place_id}",
            words=f"{litres(run.amount)} of fuel in full containers too little",
            where=(("place", place_id),),
        )


def _finding(run: Run, *, nights: int, at: str, words: str, where: Where) -> Finding:
    return Finding(
        RULE, f"{at} on the {run.words}: {words}", nights, "nights", (*run.where, *where)
    )
