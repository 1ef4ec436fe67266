"""Worlds of one kitchen made into worlds where a guest of it burns the fuel, and little else."""

from __future__ import annotations

from dataclasses import replace

from solver.plan import Load, NightStock, Plan, Stowed, TripLoads
from solver.problem import NightSet, Problem
from tests.rules.worlds import Case, person

GUEST = "guest"


def guest_of(problem: Problem, guest_id: str, kitchen_id: str = "g1") -> Problem:
    """The problem with one cook group a guest of another's kitchen."""
    groups = tuple(
        replace(group, kitchen_of=kitchen_id, containers=())
        if group.cook_group_id == guest_id
        else group
        for group in problem.cook_groups
    )
    return replace(problem, cook_groups=groups)


def with_guest(case: Case, cook_group_id: str = "g1") -> Case:
    """A case with a guest whose sets burn what all of a cook group's did, which burn nothing now.

    The guest carries nothing. For each night's bags of the group there is one of the guest.
    """
    problem = case.problem
    kitchen = problem.cook_group(cook_group_id)
    members = problem.members(cook_group_id)
    people, rope_team_id = len(members), members[0].rope_team_id
    own = [s for s in problem.night_sets if s.cook_group_id == cook_group_id]
    cold = tuple(replace(s, fuel_ml=0) if s in own else s for s in problem.night_sets)
    hot = tuple(_of_guest(night_set, people) for night_set in own)
    guest = person(GUEST, pack_g=1, cook_group_id=GUEST, rope_team_id=rope_team_id)
    guests = replace(kitchen, cook_group_id=GUEST, containers=(), kitchen_of=cook_group_id)
    fed = replace(
        problem,
        roster=(*problem.roster, guest),
        night_sets=(*cold, *hot),
        cook_groups=(*problem.cook_groups, guests),
    )
    bags = {s.unit_id: new for s, new in zip(own, hot, strict=True)}
    return replace(
        case, name=f"{case.name}, burnt for a guest", problem=fed, plan=_plan(case.plan, bags)
    )


def _of_guest(night_set: NightSet, people: int) -> NightSet:
    count = night_set.bag_count
    return replace(
        night_set,
        cook_group_id=GUEST,
        fuel_ml=night_set.fuel_ml * people,
        sets_per_bag=1,
        bag_count=None if count is None else count * night_set.sets_per_bag // people,
    )


def _plan(plan: Plan, bags: dict[str, NightSet]) -> Plan:
    """The plan with a bag of the guest wherever there are those of everybody else."""
    trips = tuple(
        replace(trip, loads=(*(_load(load, bags) for load in trip.loads), _empty(trip)))
        for trip in plan.trips
    )
    stock = tuple(
        NightStock(entry.day, entry.place_id, _units(entry.units, bags)) for entry in plan.stock
    )
    return replace(plan, trips=trips, stock=stock)


def _load(load: Load, bags: dict[str, NightSet]) -> Load:
    return replace(load, pack=_units(load.pack, bags), sled=_units(load.sled, bags))


def _empty(trip: TripLoads) -> Load:
    """What the guest carries; the rope team goes as one."""
    return Load(GUEST, trip.loads[0].water_g, trip.loads[0].lunch_g, ())


def _units(units: tuple[Stowed, ...], bags: dict[str, NightSet]) -> tuple[Stowed, ...]:
    added = []
    for stowed in units:
        if stowed.unit_id in bags:
            new = bags[stowed.unit_id]
            each_g = new.gross_g * new.sets_per_bag
            added.append(Stowed(new.unit_id, stowed.count, each_g, new.volume_ml))
    return (*units, *added)
