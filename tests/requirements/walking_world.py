"""One hauler on one leg, whose numbers the tests of energy, travel and food vary."""

from __future__ import annotations

from dataclasses import dataclass, replace

from solver.problem import (
    Calendar,
    Caps,
    Conditions,
    CookGroup,
    Day,
    Leg,
    LegMode,
    NightSet,
    Person,
    Physique,
    Place,
    PlaceKind,
    Problem,
    Route,
    Sex,
    Sled,
    Visit,
    read_timeline,
)
from solver.requirements.figures import Figure, Notice, Part

PHYSIQUE = Physique("ann", age_years=35, height_m=1.80, sex=Sex.MALE)
TOLD = Conditions(physiques=(PHYSIQUE,))
SET = NightSet("low", "north", 1_060, 60, 300, 2_000, 200, energy_kcal=4_100)


@dataclass(frozen=True, slots=True)
class Walk:
    """A leg from the road to a camp, up and down again, with what is told about it."""

    leg: Leg
    camp_m: int = 2008
    conditions: Conditions = TOLD
    night_set: NightSet = SET
    with_sled: bool = False
    body_mass_g: int | None = 80_000

    def problem(self) -> Problem:
        """Two days: up to the camp for a night, and back."""
        person = Person(
            "ann", Caps(31_250, 50_000), 80_000, "north", "north", body_mass_g=self.body_mass_g
        )
        days = (("road", "camp"), ("camp", "road"))
        return Problem(
            route=Route(
                (Place("road", 1_000, PlaceKind.ROAD_HEAD), Place("camp", self.camp_m)),
                (self.leg,),
            ),
            calendar=Calendar(tuple(Day((Visit(("north",), places),)) for places in days)),
            roster=(person,),
            sleds=(Sled("sled", "ann", 4_000, 50_000, 120_000),) if self.with_sled else (),
            cook_groups=(CookGroup("north", (("camp", "low"),)),),
            night_sets=(self.night_set,),
            conditions=self.conditions,
        )


def leg(mode: LegMode = LegMode.SLED, **facts) -> Leg:
    """The leg from road to camp with the facts that are told about it."""
    return replace(Leg("l1", "road", "camp", mode), **facts)


def part_of(part, problem: Problem) -> Part:
    """What a part of the requirements says about a problem."""
    return part(problem, read_timeline(problem))


def figures(part: Part, figure_id: str, **about) -> list[Figure]:
    """The figures of that id about those things."""
    return [
        figure
        for figure in part.figures
        if figure.figure_id == figure_id and about.items() <= dict(figure.about).items()
    ]


def only_figure(part: Part, figure_id: str, **about) -> Figure:
    """The one such figure; another number fails the test."""
    found = figures(part, figure_id, **about)
    assert len(found) == 1, (figure_id, about, len(found))
    return found[0]


def notices(part: Part, notice_id: str) -> list[Notice]:
    """The notices of that id."""
    return [notice for notice in part.notices if notice.notice_id == notice_id]


def defaults(figure: Figure) -> dict[str, float | str]:
    """Inputs of a figure that nobody told, by name; each must say where it comes from."""
    assert all(one.source for one in figure.inputs if one.is_default)
    return {one.name: one.value for one in figure.inputs if one.is_default}
