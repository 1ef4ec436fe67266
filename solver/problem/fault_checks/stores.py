"""Faults of amounts: fixed counts of bags and containers that cannot last, sleds too heavy.

What is used each night follows from the calendar alone, so these are certain before any search.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from solver.errors import ProblemFault
from solver.problem.fault_checks.cover import Effort, can_cover
from solver.problem.problem import Problem
from solver.problem.supplies import CookGroup, NightSet, Reserve, ReserveKind
from solver.problem.timeline import Timeline
from solver.quantities import share_down, share_up, units_up

_FEW_PLACES = 4
"""Reserves of a cook group up to which several kinds of container are tried out [1]."""


@dataclass(frozen=True, slots=True)
class GroupNight:
    """What one night uses, and the reserves that must be held after it.

    Of a cook group, or in fuel of a whole kitchen; the night set is then that of its own group.
    """

    day: int
    place: str
    night_set: NightSet
    fuel_ml: int
    held: tuple[Reserve, ...]


@dataclass(frozen=True, slots=True)
class NightNeed:
    """The fuel that a night burns, and what must be in reserve after it at each place [mL]."""

    day: int
    fuel_ml: int
    wanted_ml: tuple[int, ...]

    @classmethod
    def of(cls, night: GroupNight, held_ml: dict[str, int]) -> NightNeed:
        """The need of a night whose reserves are known by their places."""
        return cls(night.day, night.fuel_ml, tuple(sorted(held_ml.values())))


def group_nights(problem: Problem, timeline: Timeline, group: CookGroup) -> list[GroupNight]:
    """A cook group's nights in order."""
    people = problem.members(group.cook_group_id)
    places = [night.place_of(people[0].person_id) for night in timeline.nights]
    ours = [r for r in problem.reserves if r.cook_group_id == group.cook_group_id]
    spans = {r.place_id: _span(problem, r.place_id, places) for r in ours}
    nights = []
    for index, place in enumerate(places):
        night_set = problem.night_set(group.cook_group_id, group.set_id_at(place))
        fuel_ml = share_up(
            amount=len(people) * night_set.fuel_ml, percent=100 + problem.fuel_margin_percent
        )
        held = tuple(r for r in ours if _is_held(r, place, index in spans[r.place_id]))
        nights.append(GroupNight(timeline.nights[index].day, place, night_set, fuel_ml, held))
    return nights


def kitchen_nights(problem: Problem, timeline: Timeline, kitchen: CookGroup) -> list[GroupNight]:
    """The nights of a kitchen: the fuel and the reserves of all groups that eat from it."""
    of_groups = [group_nights(problem, timeline, group) for group in problem.fed_from(kitchen)]
    return [
        replace(
            nights[0],
            fuel_ml=sum(night.fuel_ml for night in nights),
            held=tuple(reserve for night in nights for reserve in night.held),
        )
        for nights in zip(*of_groups, strict=True)
    ]


def _is_held(reserve: Reserve, place: str, within_span: bool) -> bool:  # noqa: FBT001
    if reserve.kind is ReserveKind.BASE_WAIT:
        return True
    if reserve.kind is ReserveKind.STORM:
        return place == reserve.place_id
    return within_span


def _span(problem: Problem, mark: str, places: list[str]) -> range:
    """The nights from the first at a place to the last there or beyond, by their indexes."""
    if mark not in places:
        return range(0)
    beyond = {place for place in set(places) if problem.route.is_at_or_beyond(place, mark)}
    last = max(index for index, place in enumerate(places) if place in beyond)
    return range(places.index(mark), last + 1)


def bag_faults(problem: Problem, timeline: Timeline) -> Iterator[ProblemFault]:
    """Night sets of which fewer bags are taken than are eaten and held."""
    for group in problem.cook_groups:
        people = len(problem.members(group.cook_group_id))
        nights = group_nights(problem, timeline, group)
        for index, night_set in enumerate(problem.night_sets):
            if night_set.cook_group_id != group.cook_group_id or night_set.bag_count is None:
                continue
            used = most = 0
            for night in nights:
                if night.night_set is night_set:
                    used += people // night_set.sets_per_bag
                sets: dict[str, int] = {}
                for reserve in night.held:
                    if reserve.set_id == night_set.set_id:
                        sets[reserve.place_id] = (
                            sets.get(reserve.place_id, 0) + reserve.nights * people
                        )
                held = sum(
                    units_up(amount=n, per_unit=night_set.sets_per_bag) for n in sets.values()
                )
                most = max(most, used + held)
            if most > night_set.bag_count:
                yield ProblemFault(
                    ("night_sets", index, "bag_count"),
                    "too_few_bags",
                    f"{night_set.bag_count} bags of {night_set.set_id} are taken, but {most} are "
                    "eaten or held in reserve. Take more, or leave the number out.",
                )


def fuel_faults(problem: Problem, timeline: Timeline) -> Iterator[ProblemFault]:
    """Cook groups without containers, or with too few to burn and to hold in reserve."""
    effort = Effort()
    for index, group in enumerate(problem.cook_groups):
        nights = kitchen_nights(problem, timeline, group)
        held_any = any(_held_ml(problem, night) for night in nights)
        burnt_ml = sum(night.fuel_ml for night in nights)
        if not group.containers and (burnt_ml or held_any):
            yield ProblemFault(
                ("cook_groups", index, "containers"),
                "no_containers",
                f"Cook group {group.cook_group_id} burns fuel but has no fuel containers.",
            )
            continue
        contents = [container.content_ml for container in group.containers]
        counts = [container.count for container in group.containers]
        if None in counts:
            continue
        full = [count for count in counts if count is not None]
        needs = [NightNeed.of(night, _held_ml(problem, night)) for night in nights]
        day = _first_short_day(contents, full, needs, effort)
        if day is not None:
            total_ml = sum(c * n for c, n in zip(contents, full, strict=True))
            last = group.containers[-1].container_id
            yield ProblemFault(
                ("cook_groups", index, "containers", len(contents) - 1, "count"),
                "too_few_containers",
                f"Cook group {group.cook_group_id} takes {sum(full)} containers with {total_ml} mL "
                f"and burns {burnt_ml} mL. On day {day} they run short: reserves are whole "
                "containers, kept at their places and not opened. "
                f"{_needed(last, contents, full, needs, effort)}Take more, or leave the count "
                "out.",
            )


def _needed(
    name: str,
    contents: list[int],
    full: list[int],
    needs: list[NightNeed],
    effort: Effort,
) -> str:
    """How many of the last kind, named here, are enough with the others as they are, in words.

    Nothing is said of several kinds with many reserves, where finding out would take too long.
    """
    held = [need.wanted_ml for need in needs]
    if len(contents) > 1 and max(map(len, held), default=0) > _FEW_PLACES:
        return ""
    most_ml = sum(need.fuel_ml for need in needs) + max(map(sum, held), default=0)
    short_of, enough = full[-1], full[-1] + units_up(amount=most_ml, per_unit=contents[-1])
    enough += max(map(len, held), default=0)

    def lasts(count: int) -> bool:
        return _first_short_day(contents, [*full[:-1], count], needs, effort) is None

    if not lasts(enough):
        return ""
    # With no steps left everything seems to last, and a number would be a guess.
    while enough - short_of > 1:
        middle = (short_of + enough) // 2
        short_of, enough = (short_of, middle) if lasts(middle) else (middle, enough)
    if effort.steps_left <= 0:
        return ""
    return f"It needs {enough} of {name} in all, {enough - full[-1]} more. "


def _held_ml(problem: Problem, night: GroupNight) -> dict[str, int]:
    """Fuel in reserve after a night, by place [mL]."""
    held: dict[str, int] = {}
    for reserve in night.held:
        people = len(problem.members(reserve.cook_group_id))
        each_ml = problem.night_set(reserve.cook_group_id, reserve.set_id).fuel_ml
        fuel_ml = share_up(
            amount=reserve.nights * people * each_ml, percent=100 + problem.fuel_margin_percent
        )
        if fuel_ml:
            held[reserve.place_id] = held.get(reserve.place_id, 0) + fuel_ml
    return held


def _first_short_day(
    contents: list[int],
    full: list[int],
    needs: list[NightNeed],
    effort: Effort,
) -> int | None:
    """The first day after whose night the fuel burnt or the reserves held cannot be there."""
    left, open_ml = list(full), 0
    for night in needs:
        need_ml = night.fuel_ml
        while need_ml > open_ml:
            kind = next((k for k, count in enumerate(left) if count), None)
            if kind is None:
                return night.day
            left[kind] -= 1
            open_ml += contents[kind]
        open_ml -= need_ml
        if not can_cover(tuple(contents), tuple(left), night.wanted_ml, effort):
            return night.day
    return None


def sled_way_faults(problem: Problem, timeline: Timeline) -> Iterator[ProblemFault]:
    """Legs on which a sled is too heavy even when empty.

    No sled is ever left behind: on a tree its hauler comes home through where it stands, along
    the sled leg by which it came.
    """
    limits = {person.person_id: person.caps.sled_g for person in problem.everybody}
    for sled in problem.sleds:
        limit_g = min(sled.mass_limit_g, limits[sled.hauler_id])
        found: set[str] = set()
        for trip in timeline.trips:
            if sled.sled_id not in trip.sled_ids or trip.leg.leg_id in found:
                continue
            if sled.tare_g <= share_down(amount=limit_g, percent=trip.sled_factor_percent):
                continue
            found.add(trip.leg.leg_id)
            yield ProblemFault(
                ("route", "legs", problem.route.legs.index(trip.leg)),
                "sled_cannot_go",
                f"On {trip.leg.leg_id} {trip.direction} only {trip.sled_factor_percent} % of a "
                f"sled's limits holds, less than {sled.sled_id} weighs empty. Raise the factor, or "
                "make it a pack leg.",
            )
