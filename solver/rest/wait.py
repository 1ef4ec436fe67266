"""Nights of waiting put into a calendar: everybody stays where they are, and the rest moves on.

Those nights are eaten from storm sets where the cook group has some there, and they use up the
storm reserve of the place night by night, or what is held at the start place for waiting: that is
what they are for. The answer lists what is used up.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from solver.problem import (
    Calendar,
    CookGroup,
    Day,
    Problem,
    Reserve,
    ReserveKind,
    Visit,
)
from solver.problem.pins import pins_moved
from solver.quantities import units_up

_PLANNED = {
    ReserveKind.STORM: "storm_reserve_planned",
    ReserveKind.DESCENT: "descent_reserve_planned",
    ReserveKind.BASE_WAIT: "base_wait_planned",
}
"""The rules that ask a request to plan reserves of a kind."""

_FOR_WAITING = (ReserveKind.STORM, ReserveKind.BASE_WAIT)
"""Reserves that are held for waiting at their place."""


@dataclass(frozen=True, slots=True)
class Spent:
    """Nights of a reserve that are used up, of so many, and why."""

    reserve: Reserve
    nights: int
    why: str

    @property
    def left(self) -> int:
        """Nights that are left of it [1]."""
        return self.reserve.nights - self.nights


def with_nights_waited(problem: Problem, nights: int) -> tuple[Problem, tuple[Spent, ...]]:
    """The problem with so many nights of waiting from its moment on, and what that spends.

    Needs a history with its standing filled in. Flights keep their place in the calendar's
    order; a caller that must be out on a date has fewer days in hand.
    """
    return with_waiting_fed(with_days_waited(problem, nights), nights)


def with_days_waited(problem: Problem, nights: int) -> Problem:
    """The problem with so many days without travel put into its calendar after the moment."""
    history = problem.history
    if history is None or nights <= 0:
        return problem
    here = problem.calendar.days[max(history.day, 1) - 1].visits
    waited = Day(
        visits=tuple(Visit(visit.rope_team_ids, visit.places[-1:]) for visit in here),
        note="waiting",
    )
    days, cut = problem.calendar.days, history.day
    calendar = Calendar((*days[:cut], *[waited] * nights, *days[cut:]))
    return replace(
        problem,
        calendar=calendar,
        evacuations=tuple(
            replace(one, day=one.day + nights) if one.day is not None and one.day > cut else one
            for one in problem.evacuations
        ),
        pins=pins_moved(problem.pins, after=cut, days=nights),
    )


def with_waiting_fed(problem: Problem, nights: int) -> tuple[Problem, tuple[Spent, ...]]:
    """The problem with what the first nights after its moment eat, and what that spends."""
    history = problem.history
    if history is None or nights <= 0:
        return problem, ()
    begin = history.nights
    here = problem.calendar.days[max(history.day, 1) - 1].visits
    sleeps = {team: visit.places[-1] for visit in here for team in visit.rope_team_ids}
    spent: list[Spent] = []
    groups: list[CookGroup] = []
    reserves = list(problem.reserves)
    for group in problem.cook_groups:
        members = problem.members(group.cook_group_id)
        place_id = sleeps[members[0].rope_team_id] if members else ""
        fed = _storm_nights(problem, group, place_id, nights)
        groups.append(_fed_by(group, fed, begin=begin, nights=nights))
        left = nights
        for number, reserve in enumerate(reserves):
            is_this = (reserve.cook_group_id, reserve.place_id) == (group.cook_group_id, place_id)
            if is_this and reserve.kind in _FOR_WAITING and left and reserve.nights:
                used = min(left, reserve.nights)
                left -= used
                spent.append(Spent(reserve, used, f"waiting at {place_id}"))
                reserves[number] = replace(reserve, nights=reserve.nights - used)
    fewer = replace(problem, cook_groups=tuple(groups), reserves=tuple(reserves))
    return without_planning_rules(fewer, spent), tuple(spent)


def without_planning_rules(problem: Problem, spent: Sequence[Spent]) -> Problem:
    """The problem with the rules on planned reserves as advisories.

    They ask what an expedition sets out with. On the way, reserves are used for their purpose.
    """
    known = dict(problem.rules.waived)
    why = {one.reserve.kind: one.why for one in reversed(spent)}
    more = {
        rule_id: why.get(kind, "it asks what an expedition sets out with")
        for kind, rule_id in _PLANNED.items()
        if rule_id not in known
    }
    waived = (*problem.rules.waived, *more.items())
    return replace(problem, rules=replace(problem.rules, waived=waived))


def _fed_by(group: CookGroup, set_ids: Sequence[str], *, begin: int, nights: int) -> CookGroup:
    """The group with these sets on the first nights of waiting; later nights keep their own."""
    moved = ((day + nights if day > begin else day, set_id) for day, set_id in group.set_on)
    chosen = ((begin + number, set_id) for number, set_id in enumerate(set_ids, start=1))
    return replace(group, set_on=(*moved, *chosen))


def _storm_nights(problem: Problem, group: CookGroup, place_id: str, nights: int) -> list[str]:
    """Storm sets for as many of the nights as stand where the group waits, a set id a night."""
    people = len(problem.members(group.cook_group_id))
    history = problem.history
    stands = {
        one.unit_id: one.count
        for one in (history.standing if history is not None else ())
        if one.place_id == place_id
    }
    fed: list[str] = []
    for night_set in problem.night_sets:
        if night_set.cook_group_id == group.cook_group_id and night_set.storm and people:
            bags = units_up(amount=people, per_unit=night_set.sets_per_bag)
            fed += [night_set.set_id] * (stands.get(night_set.unit_id, 0) // bags)
    return fed[:nights]
