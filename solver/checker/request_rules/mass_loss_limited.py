"""Mass loss limited: nobody likely loses more of their body than strength and warmth bear.

For each person whose mass is given and whose nights' sets all give their energy:
sum over nights of (need - eaten) / energy of a kilogram of body <=
`most_mass_loss_percent` x mass. Need is basal energy by FAO 2004 times an activity level of 2.4
after a day with a trip and of 1.8 after others, the ends of what FAO gives for hard and for
moderate work; eaten is the set's energy less what appetite leaves at that elevation. The amount is
in grams, rounded up. It is an estimate to warn by, on purpose another than that of the
requirements, and no medical advice.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from solver.calculators.body_mass import FAT_SHARE, appetite_lost_share, mass_lost_kg
from solver.calculators.resting_energy import fao_2004_basal_kcal_per_day
from solver.calculators.total_energy import fao_2004_total_kcal_per_day
from solver.checker.ledger.facts import Facts
from solver.plan import Finding
from solver.problem import Person, Physique

RULE = "mass_loss_limited"
TRAVEL_LEVEL = 2.4
CAMP_LEVEL = 1.8
AGE_YEARS = 35.0


def mass_loss_limited(facts: Facts) -> Iterator[Finding]:
    """People who likely lose more of their body mass than the limit."""
    percent = facts.problem.rules.number("most_mass_loss_percent")
    for person in facts.problem.roster:
        if person.body_mass_g is None:
            continue
        lost_kg = _lost_kg(facts, person, person.body_mass_g / 1000)
        if lost_kg is None:
            continue
        over_g = math.ceil(1000 * lost_kg - percent * person.body_mass_g / 100 - 1e-6)
        if over_g > 0:
            yield Finding(
                RULE,
                f"{person.person_id} likely loses {lost_kg:.1f} kg, "
                f"{100_000 * lost_kg / person.body_mass_g:.1f} % of the body, {percent:g} % is the "
                "most",
                over_g,
                "g",
                (("person", person.person_id),),
                ("take food that gets eaten high up", "put more energy into the sets"),
            )


def _lost_kg(facts: Facts, person: Person, body_kg: float) -> float | None:
    """Body mass that the food's lack takes; None where some night's food is not known [kg]."""
    problem = facts.problem
    basal = _basal(facts, person, body_kg)
    travelled = {trip.day for trip in facts.timeline.trips if person.person_id in trip.person_ids}
    lacking = 0.0
    for meal in facts.meals:
        if meal.cook_group_id != person.cook_group_id:
            continue
        offered = meal.night_set.energy_kcal
        elevation_m = problem.route.place(meal.place_id).elevation_m
        if offered is None or not -430 <= elevation_m <= 8849:
            return None
        need = fao_2004_total_kcal_per_day(
            basal_kcal_per_day=basal,
            physical_activity_level=TRAVEL_LEVEL if meal.day in travelled else CAMP_LEVEL,
        )
        lacking += need - offered * (1 - appetite_lost_share(elevation_m=elevation_m))
    lacking = min(500_000.0, max(0.0, lacking))
    return mass_lost_kg(deficit_kcal=lacking, fat_share=FAT_SHARE)


def _basal(facts: Facts, person: Person, body_kg: float) -> float:
    """Basal energy, of a man of 35 years where nothing is given, within the equation's range."""
    known = {each.person_id: each for each in facts.problem.conditions.physiques}
    physique = known.get(person.person_id, Physique(person.person_id))
    age = AGE_YEARS if physique.age_years is None else physique.age_years
    return fao_2004_basal_kcal_per_day(
        sex="male" if physique.sex is None else physique.sex.value,
        body_mass_kg=min(150.0, max(40.0, body_kg)),
        age_years=min(90.0, max(18.0, age)),
    )
