"""What people use up besides food, water and fuel, rounded up to what is sold.

A day on the trip is a day on snow. All rates are common practice, no source, but those that
their calculators name otherwise.
"""

from __future__ import annotations

import math

from solver.calculators.body_surface import dubois_1916_m2
from solver.calculators.consumables import COMMON, consumable_need
from solver.calculators.marking import cache_pole_count
from solver.calculators.sun_cream import sun_cream_g
from solver.calculators.toilet_and_waste import toilet_events, toilet_paper_g
from solver.calculators.warmers import hand_warmer_pairs, insole_warmer_pairs
from solver.calculators.water_treatment import boil_minutes, treatment_doses
from solver.problem import Person, PlaceKind, Problem, Timeline
from solver.requirements.batteries import count_batteries
from solver.requirements.cache_stock import cache_stock_ml
from solver.requirements.daytime import daytime
from solver.requirements.figures import Input, Notice, Part
from solver.requirements.surroundings import (
    PRACTICE,
    as_given,
    assumed,
    elevation,
    out_of_range,
    sleepers,
)
from solver.requirements.tally import Tally, days_input, people_input
from solver.requirements.water import water_pattern

SEVERE_BELOW_C = -22.0
BODY_SURFACE_M2 = 1.8
TUBE_G = 50
ROLL_G = 100


def consumables(problem: Problem, timeline: Timeline) -> Part:
    """Sun cream, warmers, batteries, paper and bags, poles, treatment and refills [count, g]."""
    taken = Tally()
    for name, work_out in (
        ("sun_cream", _sun_cream),
        ("hand_warmers", _warmers),
        ("batteries", count_batteries),
        ("toilet_paper", _toilet),
        ("cache_poles", _poles),
        ("water_treatment", _treatment),
        ("refill_packs", _refills),
    ):
        try:
            work_out(problem, timeline, taken)
        except ValueError as error:
            taken.notices.append(out_of_range(name, (), error))
    return Part(tuple(taken.figures), tuple(taken.notices))


def _sun_cream(problem: Problem, _: Timeline, taken: Tally) -> None:
    """Cream of each person for all days, as people use it and as it protects; tubes for all."""
    days = days_input(problem)
    for figure_id, share, words in (
        ("sun_cream", 0.5, "half of 2 mg/cm², as people use it"),
        ("sun_cream_protecting", 1.0, "2 mg/cm², the dose that gives the protection named"),
    ):
        total_g = 0.0
        for person in problem.roster:
            surface = _body_surface(problem, person)
            cream_g = sun_cream_g(
                days=float(days.value), body_surface_m2=float(surface.value), dose_share=share
            )
            total_g += cream_g
            taken.count(
                figure_id, (("person_id", person.person_id),), cream_g, "g/person",
                f"days × 4 applications × {words}, on face and neck", (days, surface),
                source=f"dose of the protection test (quoted); applications and share: {PRACTICE}",
            )  # fmt: skip
        tube = assumed("tube", TUBE_G, "g")
        taken.count(
            f"{figure_id}_tubes", (), _whole(total_g / TUBE_G), "tubes",
            "cream of all / tube, rounded up", (as_given("sun_cream", total_g, "g"), tube),
        )  # fmt: skip


def _body_surface(problem: Problem, person: Person) -> Input:
    physique = next(
        (p for p in problem.conditions.physiques if p.person_id == person.person_id), None
    )
    if person.body_mass_g is None or physique is None or physique.height_m is None:
        return assumed("body_surface", BODY_SURFACE_M2, "m²")
    surface_m2 = dubois_1916_m2(
        body_mass_kg=person.body_mass_g / 1000, height_cm=100 * physique.height_m
    )
    return as_given("body_surface", surface_m2, "m²")


def _warmers(problem: Problem, timeline: Timeline, taken: Tally) -> None:
    """Hand warmers for each person's severe days on the way, insoles for the coldest climb."""
    days = {trip.leg.leg_id: daytime(problem, trip.leg) for trip in timeline.trips}
    summits = {p.place_id for p in problem.route.places if p.kind is PlaceKind.SUMMIT}
    for person in problem.roster:
        about = (("person_id", person.person_id),)
        trips = [trip for trip in timeline.trips if person.person_id in trip.person_ids]
        severe = {trip.day for trip in trips if days[trip.leg.leg_id].felt_c <= SEVERE_BELOW_C}
        taken.count(
            "hand_warmers", about, hand_warmer_pairs(severe_days=min(120, len(severe))),
            "pairs/person", "one pair for each severe day on the way, 1 to 4",
            (
                as_given("severe_days", len(severe), "days"),
                assumed("severe", SEVERE_BELOW_C, "degC"),
            ),
        )  # fmt: skip
        climbs = [trip for trip in trips if {trip.from_place, trip.to_place} & summits] or trips
        if not climbs:
            continue
        coldest = min((days[trip.leg.leg_id] for trip in climbs), key=lambda day: day.felt_c)
        taken.count(
            "insole_warmers", about,
            insole_warmer_pairs(summit_felt_temperature_c=min(10.0, coldest.felt_c)),
            "pairs/person", "one pair for the climb to the summit or the coldest leg, two from "
            "-35 degC", (
                as_given("felt_temperature", coldest.felt_c, "degC"),
                coldest.temperature, coldest.wind,
            ),
        )  # fmt: skip
    held = {one for day in days.values() for one in day.held}
    if held:
        taken.notices.append(
            Notice(
                "warmers_beyond_range",
                (),
                f"Beyond the range of the wind chill: {'; '.join(sorted(held))}. Warmers are "
                "counted with that, and it is colder than that.",
            )
        )


def _toilet(_: Problem, timeline: Timeline, taken: Tally) -> None:
    """Paper in rolls, and a bag for each use."""
    nights = sum(sleepers(timeline).values())
    person_nights = as_given("person_nights", nights, "person-nights")
    paper_g = toilet_paper_g(person_days=nights)
    taken.count(
        "toilet_paper", (), paper_g, "g", "15 g a person and night", (person_nights,),
        source="10 to 15 g a person and day, from memory, unverified", status="memory-unverified",
    )  # fmt: skip
    taken.count(
        "toilet_paper_rolls", (), _whole(paper_g / ROLL_G), "rolls", "paper / roll, rounded up",
        (as_given("toilet_paper", paper_g, "g"), assumed("roll", ROLL_G, "g")),
    )  # fmt: skip
    taken.count(
        "waste_bags", (), toilet_events(person_days=nights), "bags",
        "1.20 uses a person and night, rounded up", (person_nights,),
        source="Rose et al. 2015, doi 10.1080/10643389.2014.1000761", status="read",
    )  # fmt: skip


def _poles(problem: Problem, timeline: Timeline, taken: Tally) -> None:
    """Poles for each cache site by the most stock that can pass through it."""
    for place_id, stock_ml in cache_stock_ml(problem, timeline).items():
        taken.count(
            "cache_poles", (("place_id", place_id),),
            cache_pole_count(stock_volume_l=stock_ml / 1000), "poles",
            "at least two, one for each 150 L",
            (Input(
                "stock_volume", stock_ml / 1000, "L", is_default=True,
                source="food and fuel of all nights and reserves at or beyond the cache",
            ),),
        )  # fmt: skip


def _treatment(problem: Problem, timeline: Timeline, taken: Tally) -> None:
    """Treatment for all water that is only melted, and how long boiling takes to be safe."""
    litres = 0.0
    for place_id, person_nights in sleepers(timeline).items():
        place = problem.route.place(place_id)
        pattern = water_pattern(
            elevation_m=place.elevation_m,
            storm=False,
            conditions=problem.conditions,
            rules=problem.rules,
        )
        litres += float(pattern.melted.value) * person_nights
        taken.count(
            "boil_minutes", (("place_id", place_id),),
            boil_minutes(geometric_height_m=place.elevation_m), "min",
            "1 min of rolling boil, 3 min above 1981 m", (elevation(place),),
            source="CDC, in Dorris et al. 2025, Emerg Infect Dis 31(8)", status="read",
        )  # fmt: skip
    treatment = treatment_doses(untreated_l=litres)
    melted = as_given("melted_unboiled", litres, "L")
    taken.count("water_treatment", (), treatment.doses, "tablets", "one for each litre", (melted,))
    taken.count(
        "water_treatment_packs", (), treatment.packs, "packs", "tablets / 30, rounded up", (melted,)
    )
    taken.notices.append(
        Notice(
            "water_treatment",
            (),
            f"{treatment.doses} tablets would treat all water that is melted and not boiled. "
            "Clean snow from above the camp is commonly drunk untreated; melting alone makes "
            "nothing safe.",
        )
    )


def _refills(problem: Problem, _: Timeline, taken: Tally) -> None:
    """Packages of medical, hygiene and repair refills."""
    days, people = days_input(problem), people_input(problem)
    for consumable in COMMON:
        need = consumable_need(
            consumable=consumable, persons=len(problem.roster), days=float(days.value)
        )
        inputs = (
            days,
            people,
            assumed("rate", consumable.rate, f"{consumable.unit}/{consumable.basis}"),
            assumed("pack", consumable.units_per_pack, consumable.unit),
        )
        taken.count(
            "refill_packs", (("consumable", consumable.name),), need.packs, "packs",
            "rate × basis / pack, rounded up", inputs,
        )  # fmt: skip


def _whole(value: float) -> int:
    return math.ceil(round(value, 9))
