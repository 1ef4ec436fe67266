"""Trips and loads of a plan as the wire has them."""

from __future__ import annotations

from api_schema.load_answer import LoadAnswer, TripAnswer
from service.translate.read.requests import ReadRequest
from service.translate.write.choices import DIRECTIONS, MODES
from service.translate.write.days import date_of
from service.translate.write.load_figures import figures_of
from service.translate.write.stowed import StowedWriter, volume_ml
from service.translate.write.units import kilograms, litres, share
from solver.plan import Load, TripLoads
from solver.problem import Problem, Trip


def write_trip(read: ReadRequest, trip: Trip, told: TripLoads, units: StowedWriter) -> TripAnswer:
    """One party on one leg, with everybody's loads."""
    return TripAnswer(
        day=trip.day,
        date=date_of(read.start_date, trip.day),
        step=trip.step,
        from_=trip.from_place,
        to=trip.to_place,
        leg_id=trip.leg.leg_id,
        mode=MODES[trip.leg.mode],
        direction=DIRECTIONS[trip.direction],
        loads=[_write_load(read.problem, trip, load, units) for load in told.loads],
    )


def _write_load(problem: Problem, trip: Trip, load: Load, units: StowedWriter) -> LoadAnswer:
    figures = figures_of(problem, trip, load)
    return LoadAnswer(
        person_id=load.person_id,
        pack_kg=kilograms(figures.pack_g),
        pack_cap_kg=kilograms(figures.pack_cap_g),
        pack_l=litres(volume_ml(load.pack)),
        water_kg=kilograms(load.water_g),
        lunch_kg=kilograms(load.lunch_g),
        sled_id=load.sled_id,
        sled_kg=kilograms(figures.sled_g),
        sled_cap_kg=kilograms(figures.sled_cap_g),
        sled_l=litres(volume_ml(load.sled)),
        total_kg=kilograms(figures.pack_g + figures.sled_g),
        load_limit_kg=None if figures.limit_g is None else kilograms(figures.limit_g),
        load_fraction=share(figures.fraction),
        pack=units.all(load.pack),
        sled=units.all(load.sled),
    )
