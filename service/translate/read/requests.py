"""A request document read into a problem, with every fault told at once.

First its own edits are done, such as `without`. Then comes the wire: shape, types, units. Then the
parts are read onto the grid, and last the whole is checked against itself. Where the wire has
faults, a mended copy goes through the later steps too, so that a caller hears of a day that
teleports together with a cap without a unit.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace

from pydantic import ValidationError

from api_schema.plan_request import PlanRequest
from service.errors import Fault, RequestFaults
from service.pointers import resolved
from service.translate.read.calendar import read_calendar, start_place_of
from service.translate.read.conditions import read_conditions
from service.translate.read.eaten import say_what_is_eaten
from service.translate.read.edits.edited_request import EditedRequest, with_edits_done
from service.translate.read.flights import read_evacuations, read_flights
from service.translate.read.fuel import read_cook_groups, read_fuel_figures
from service.translate.read.gear import read_gear
from service.translate.read.guests import note_unknown_menus
from service.translate.read.mending import faults_behind
from service.translate.read.menu import read_menu
from service.translate.read.near_plan import read_near_plan
from service.translate.read.night_fuel import Camps, with_open_fuel
from service.translate.read.notes import STATED, Assumption, Notes, Path, nearest_pointer
from service.translate.read.options import read_options
from service.translate.read.pins import note_unclear_pins, read_pins
from service.translate.read.prices import Prices, read_prices
from service.translate.read.ranges import note_out_of_range
from service.translate.read.reserves import read_reserves
from service.translate.read.roster import read_roster
from service.translate.read.route import read_route
from service.translate.read.rules import read_rules
from service.translate.read.sleds import read_sleds
from service.translate.read.slept_at import places_slept_at
from service.translate.read.start_plan import read_start_plan
from service.translate.read.waste import read_waste
from service.translate.read.wire_faults import wire_faults
from solver.outcome import Limits
from solver.plan import Plan
from solver.problem import Problem, Timeline
from solver.problem.faults import examine

_Options = tuple[Limits, float | None, Plan | None]


@dataclass(frozen=True, slots=True)
class ReadRequest:
    """A request in order: the problem, its timeline, and what an answer repeats of the request.

    `near` is a former plan to stay near to, `start` one to begin from. `solve_seconds` is the time
    limit that the caller set, None where it is left to the service.
    """

    problem: Problem
    timeline: Timeline
    limits: Limits
    solve_seconds: float | None
    reference: str | None
    title: str | None
    start_date: dt.date | None
    assumptions: tuple[Assumption, ...]
    names: Mapping[str, str]
    near: Plan | None = None
    start: Plan | None = None
    prices: Prices = field(default_factory=Prices)
    pointers: Mapping[Path, str] = field(default_factory=dict, compare=False, repr=False)
    origin_of: Callable[[str], str] = field(default=str, compare=False, repr=False)

    def pointer_of(self, where: Path) -> str | None:
        """Where in the request a part of the problem came from; None where that is not known."""
        return self.origin_of(nearest_pointer(self.pointers, where)) or None


def _as_written_down(problem: Problem) -> Problem:
    """Nothing has happened yet."""
    return problem


def read_plan_request(
    document: dict[str, object], arrange: Callable[[Problem], Problem] = _as_written_down
) -> ReadRequest:
    """The problem that a document asks for; raises RequestFaults with every fault in it.

    `arrange` puts a history into the problem of an expedition that is under way: what it may
    still be short of is no fault then.
    """
    edited = with_edits_done(document)
    try:
        request = PlanRequest.model_validate(edited.document)
    except ValidationError as error:
        faults = wire_faults(error, PlanRequest)
        behind = faults_behind(edited.document, error, _notes_on)
        found = resolved((*faults, *behind), edited.document)
        raise RequestFaults(_as_written(edited, found)) from None
    problem, timeline, notes, (limits, solve_seconds, near) = _read(request, arrange)
    prices = read_prices(request, problem, notes)
    start = read_start_plan(request.options, problem, timeline, notes)
    if edited.faults or notes.faults or timeline is None:
        raise RequestFaults(_as_written(edited, resolved(notes.faults, edited.document)))
    return ReadRequest(
        problem=problem,
        timeline=timeline,
        limits=limits,
        near=near,
        start=start,
        prices=prices,
        solve_seconds=solve_seconds,
        reference=request.reference,
        title=request.title,
        start_date=request.start_date,
        assumptions=(*_edits(edited), *_assumptions(edited, notes)),
        names=notes.names,
        pointers=notes.pointers(),
        origin_of=edited.origin_of,
    )


def _as_written(edited: EditedRequest, faults: tuple[Fault, ...]) -> tuple[Fault, ...]:
    """Faults of the edits, then those of what came of them, each where the caller wrote it."""
    return (
        *edited.faults,
        *(replace(fault, pointer=edited.origin_of(fault.pointer)) for fault in faults),
    )


def _edits(edited: EditedRequest) -> tuple[Assumption, ...]:
    """What the edits of the request did."""
    return tuple(Assumption(n.pointer, n.what, n.value, STATED) for n in edited.notes)


def _assumptions(edited: EditedRequest, notes: Notes) -> tuple[Assumption, ...]:
    return tuple(replace(a, pointer=edited.origin_of(a.pointer)) for a in notes.assumptions)


def _notes_on(request: PlanRequest) -> Notes:
    problem, _, notes, _ = _read(request)
    read_prices(request, problem, notes)
    return notes


def _read(
    request: PlanRequest, arrange: Callable[[Problem], Problem] = _as_written_down
) -> tuple[Problem, Timeline | None, Notes, _Options]:
    """The problem and the options, with all faults of the parts and of the whole noted."""
    notes = Notes()
    people = read_roster(request.roster, notes)
    teams = tuple(dict.fromkeys(person.rope_team_id for person in people))
    calendar = read_calendar(request.calendar, teams, notes)
    route = read_route(request.route, start_place_of(request.calendar), notes)
    slept_at = places_slept_at(people, calendar)
    rules = read_rules(request.rules, notes)
    night_sets, set_at, open_fuel = read_menu(
        request.menu, slept_at, route.places, notes, rules=rules
    )
    note_unknown_menus(request.menu, request.roster, notes)
    say_what_is_eaten(request.menu, people, notes)
    density_g_per_l, margin_percent = read_fuel_figures(request.fuel, notes)
    conditions = read_conditions(
        request.conditions, request.roster, notes, start=request.start_date
    )
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
            rules=rules,
            notes=notes,
        ),
        reserves=reserves,
        waste=read_waste(request.waste, notes),
        fuel_density_g_per_l=density_g_per_l,
        fuel_margin_percent=margin_percent,
        rules=rules,
        conditions=conditions,
        flights=read_flights(request.flights, notes),
        evacuations=read_evacuations(request.evacuations, notes),
        pins=read_pins(request.pins, notes),
    )
    problem = arrange(problem)
    faults, timeline = examine(problem)
    notes.take_problem_faults(faults)
    walked = timeline
    if faults and all(fault.where[:1] == ("pins",) for fault in faults):
        # A pin that lies on no trip hides nothing of the others, nor of the rest.
        faults, walked = examine(replace(problem, pins=()))
        notes.take_problem_faults(faults)
    if walked is not None and not faults:
        note_unclear_pins(request.pins, problem, walked, notes)
    note_out_of_range(request, notes)
    options = *read_options(request.options, notes), read_near_plan(request.options, notes)
    return problem, timeline, notes, options
