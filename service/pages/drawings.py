"""The sheet of pictures, drawn as wide as the paper is."""

from __future__ import annotations

from service.pages.blocks import Drawing, Section
from service.pages.facts import PlanFacts
from service.pictures.energy import energy_picture
from service.pictures.loads import loads_picture
from service.pictures.profile import profile_picture
from service.pictures.stock import stock_picture
from service.pictures.svg import Picture


def drawings(facts: PlanFacts, *, width: float) -> Section:
    """The sheet of all pictures."""
    made = pictures_of(facts, width=width)
    blocks = tuple(Drawing(one.title, one.finding, one.svg()) for one in made)
    return Section("pictures", "The plan in pictures", blocks)


def pictures_of(facts: PlanFacts, *, width: float) -> list[Picture]:
    """Loads, profile, energy, and the stock of each camp where people sleep."""
    names = {person: facts.person(person) for person in facts.people}
    elevations = {place: facts.elevation_m(place) for place in facts.places}
    made: list[Picture | None] = [
        loads_picture(facts.outcome, width=width, names=names),
        profile_picture(facts.outcome, elevations, width=width),
        energy_picture(facts.figures, width=width),
        *(
            stock_picture(
                facts.outcome,
                place,
                width=width,
                name=facts.place(place),
                reserve_nights=facts.storm_nights(place),
            )
            for place in _slept_at(facts)
        ),
    ]
    return [one for one in made if one is not None]


def _slept_at(facts: PlanFacts) -> list[str]:
    slept = {way[-1] for day in facts.plan["days"] for way in day["places"].values()}
    stocked = {night["place"] for night in facts.plan["stock"] if night["cook_groups"]}
    return [place for place in facts.places if place in slept & stocked]
