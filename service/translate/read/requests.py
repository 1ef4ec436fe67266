"""A request document read into a problem, with every fault told at once.

First the wire: shape, types, units. Then the parts are read onto the grid, and last the whole
is checked against itself. Where the wire has faults, a mended copy goes through the later steps
too, so that a caller hears of a day that teleports together with a cap without a unit.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass

from pydantic import ValidationError

from api_schema.plan_request import OptionsRequest, PlanRequest
from service.errors import RequestFaults
from service.translate.read import quantities
from service.translate.read.calendar import read_calendar, start_place_of
from service.translate.read.conditions import read_conditions
from service.translate.read.flights import read_evacuations, read_flights
from service.translate.read.gear import read_gear
from service.translate.read.mending import faults_behind
from service.translate.read.menu import read_menu, say_what_is_eaten
from service.translate.read.night_fuel import Camps, with_open_fuel
from service.translate.read.notes import Assumption, Notes
from service.translate.read.ranges import note_out_of_range
from service.translate.read.roster import read_roster, read_sleds
from service.translate.read.route import read_route
from service.translate.read.rules import read_rules
from service.translate.read.supplies import (
    places_slept_at,
    read_cook_groups,
    read_fuel_figures,
    read_reserves,
    read_waste,
)
from service.translate.read.wire_faults import wire_faults
from solver.outcome import Limits
from solver.problem import Problem
from solver.problem.faults import find_faults

LONGEST_SOLVE_SECONDS = 3600

STANDARD_GAP = 10
"""How far the peak may stay above its bound when the search stops [1/10,000 of the peak]."""


@dataclass(frozen=True, slots=True)
class ReadRequest:
    """A request in order: the problem, and what an answer repeats of the request.

    `solve_seconds` is the time limit that the caller set, None where it is left to the service.
    """

    problem: Problem
    limits: Limits
    solve_seconds: float | None
    reference: str | None
    title: str | None
    start_date: dt.date | None
    assumptions: tuple[Assumption, ...]
    names: Mapping[str, str]


def read_plan_request(document: dict[str, object]) -> ReadRequest:
    """The problem that a document asks for; raises RequestFaults with every fault in it."""
    try:
        request = PlanRequest.model_validate(document)
    except ValidationError as error:
        faults = wire_faults(error)
        raise RequestFaults((*faults, *faults_behind(document, error, _notes_on))) from None
    problem, notes = _read(request)
    limits, solve_seconds = _read_options(request.options, notes)
    if notes.faults:
        raise RequestFaults(tuple(notes.faults))
    return ReadRequest(
        problem=problem,
        limits=limits,
        solve_seconds=solve_seconds,
        reference=request.reference,
        title=request.title,
        start_date=request.start_date,
        assumptions=tuple(notes.assumptions),
        names=notes.names,
    )


def _notes_on(request: PlanRequest) -> Notes:
    return _read(request)[1]


def _read(request: PlanRequest) -> tuple[Problem, Notes]:
    """The problem with all faults of its parts and of the whole noted."""
    notes = Notes()
    people = read_roster(request.roster, notes)
    teams = tuple(dict.fromkeys(person.rope_team_id for person in people))
    calendar = read_calendar(request.calendar, teams, notes)
    route = read_route(request.route, start_place_of(request.calendar), notes)
    slept_at = places_slept_at(people, calendar)
    night_sets, set_at, open_fuel = read_menu(request.menu, slept_at, route.places, notes)
    say_what_is_eaten(request.menu, people, notes)
    density_g_per_l, margin_percent = read_fuel_figures(request.fuel, notes)
    conditions = read_conditions(request.conditions, request.roster, notes)
    reserves = read_reserves(request, night_sets, set_at, slept_at, notes)
    problem = Problem(
        route=route,
        calendar=calendar,
        roster=people,
        sleds=read_sleds(request.sleds, people, notes),
        gear=read_gear(request, notes),
        cook_groups=read_cook_groups(request.fuel, set_at, notes),
        night_sets=with_open_fuel(
            night_sets,
            open_fuel,
            Camps(route.places, slept_at, set_at, reserves),
            density_g_per_l=density_g_per_l,
            conditions=conditions,
            notes=notes,
        ),
        reserves=reserves,
        waste=read_waste(request.waste, notes),
        fuel_density_g_per_l=density_g_per_l,
        fuel_margin_percent=margin_percent,
        rules=read_rules(request.rules, notes),
        conditions=conditions,
        flights=read_flights(request.flights, notes),
        evacuations=read_evacuations(request.evacuations, notes),
    )
    notes.take_problem_faults(find_faults(problem))
    note_out_of_range(request, notes)
    return problem, notes


def _read_options(options: OptionsRequest, notes: Notes) -> tuple[Limits, float | None]:
    standard = Limits()
    solve_seconds = None
    if options.time_limit is not None:
        solve_seconds = quantities.seconds(options.time_limit)
        if not 1 <= solve_seconds <= LONGEST_SOLVE_SECONDS:
            notes.fault(
                "/options/time_limit",
                "out_of_range",
                f"This must be between 1 and {LONGEST_SOLVE_SECONDS} s.",
            )
    workers = options.workers if options.workers is not None else standard.workers
    return (
        Limits(
            wall_seconds=standard.wall_seconds if solve_seconds is None else solve_seconds,
            workers=1 if options.reproducible else workers,
            reproducible=options.reproducible,
            gap=STANDARD_GAP,
            seed=standard.seed if options.seed is None else options.seed,
        ),
        solve_seconds,
    )
