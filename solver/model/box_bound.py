"""A bound on the peak of many calendars at once: all the trips of any, the needs of none.

For calendars with between so many and so many carries on each leg: the relaxation of one calendar
with the fewest nights, in which the further carries are trips on the day of the move. A plan of
any member maps into it, for what could tell against that is left out: loads of water, lunch and
kit on further trips; all that fuel weighs, since how much is left in an open container depends on
the nights before; and every rule on how things are shared out or ride along. What each camp's
nights need to eat, what must stand where, and the caps of the trips that all members have, stay.
"""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import replace

from solver.model.formulation.build_frame import sort_rows
from solver.model.instance.cargo import Cargo, CargoKind
from solver.model.instance.world import World, build_world
from solver.model.rows import CarrierRow, ConserveRow, LoadRow, OwnRow, RideRow, Row, StockRow
from solver.model.rules import build_rows
from solver.model.solvers.relaxation import build_relaxation, least_peak_bound
from solver.problem import Problem

_FUEL = (CargoKind.FULL, CargoKind.OPEN, CargoKind.EMPTY)


def box_bound(problem: Problem, further: Collection[int], *, seconds: float) -> int | None:
    """What no member's peak is below [1/10,000]; None where no member has a plan.

    `problem` has the calendar with the fewest nights and all trips; `further` are the numbers of
    the trips that not every member makes.
    """
    world = _without_fuel(build_world(_with_light_lunch(problem)))
    rows = [kept for row in build_rows(world) if (kept := _kept(world, row, further)) is not None]
    relaxation = build_relaxation(sort_rows(world, rows))
    if relaxation.impossible is not None:
        return None
    return least_peak_bound(relaxation, seconds=seconds)


def _with_light_lunch(problem: Problem) -> Problem:
    """The lunch of day 1 no heavier than any other: a member may move on another day."""
    lightest = min((meal.lunch_g for meal in problem.night_sets), default=0)
    roster = tuple(
        replace(person, first_lunch_g=min(person.first_lunch_g, lightest))
        for person in problem.roster
    )
    return replace(problem, roster=roster)


def _without_fuel(world: World) -> World:
    return replace(world, cargo=tuple(_light(thing) for thing in world.cargo))


def _light(thing: Cargo) -> Cargo:
    return replace(thing, mass_g=0, volume_ml=0) if thing.kind in _FUEL else thing


def _kept(world: World, row: Row, further: Collection[int]) -> Row | None:
    """A row that holds for every member, eased on trips that not all make; None without one."""
    match row:
        case CarrierRow() | ConserveRow() | OwnRow():
            return row
        case LoadRow():
            return replace(row, fixed=0) if row.trip in further else row
        case RideRow():
            return None if row.trip in further or _is_fuel(world, row.cargo) else row
        case StockRow():
            return None if any(_is_fuel(world, cargo) for cargo, _ in row.terms) else row
    return None


def _is_fuel(world: World, cargo: int) -> bool:
    return world.cargo[cargo].kind in _FUEL
