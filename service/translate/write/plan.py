"""A plan written as the wire has it: kilograms and litres, names, dates, nights of stock."""

from __future__ import annotations

from api_schema.plan_answer import DayAnswer, PlanDocument
from service.translate.read.requests import ReadRequest
from service.translate.write.containers import write_containers
from service.translate.write.days import date_of, kind_of
from service.translate.write.flights import write_flight
from service.translate.write.keepers import write_keepers
from service.translate.write.pins import write_pins
from service.translate.write.stock import StockWriter
from service.translate.write.stowed import StowedWriter
from service.translate.write.trips import write_trip
from service.translate.write.unit_labels import write_units
from service.translate.write.weakest import write_weakest
from solver.plan import Plan, Stowed


def write_plan(read: ReadRequest, plan: Plan) -> PlanDocument:
    """The whole plan of a request."""
    units = StowedWriter(read.names)
    stock = StockWriter(read, units)
    last_day = len(read.problem.calendar.days)
    return PlanDocument(
        days=[_write_day(read, number) for number in range(1, last_day + 1)],
        trips=[
            write_trip(read, trip, told, units)
            for trip, told in zip(read.timeline.trips, plan.trips, strict=True)
        ],
        keepers=write_keepers(read, plan.keepers),
        weakest=write_weakest(read, plan),
        pins=write_pins(read, plan),
        containers=write_containers(read, plan),
        taken_along=units.all(_at_the_start(read, plan, 0)),
        stock=[stock.stock(entry) for entry in plan.stock],
        used=stock.used(),
        flights=[write_flight(read.problem, told, units) for told in plan.flights],
        comes_down=units.all(_at_the_start(read, plan, last_day)),
        units=write_units(read.problem, plan, read.names),
    )


def _write_day(read: ReadRequest, number: int) -> DayAnswer:
    day = read.problem.calendar.days[number - 1]
    return DayAnswer(
        day=number,
        date=date_of(read.start_date, number),
        places={team: list(visit.places) for visit in day.visits for team in visit.rope_team_ids},
        kind=kind_of(read.problem, day),
        note=day.note or None,
    )


def _at_the_start(read: ReadRequest, plan: Plan, day: int) -> list[Stowed]:
    """What stands at the start place after the night of a day."""
    return [
        stowed
        for entry in plan.stock
        if (entry.day, entry.place_id) == (day, read.problem.start_place)
        for stowed in entry.units
    ]
