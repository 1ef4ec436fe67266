"""What packaging and people leave, by night and stay, and what takes it down."""

from __future__ import annotations

from solver.calculators.toilet_and_waste import (
    containers_by_uses,
    containers_by_volume,
    measured_faeces_g,
)
from solver.problem import Problem, Timeline
from solver.requirements.consumption import Sack, night_meals, sacks
from solver.requirements.figures import Figure, Input, Notice, Part
from solver.requirements.surroundings import PRACTICE, as_given, assumed, out_of_range

CONTAINER_L = 8.0
L_PER_PERSON_DAY = 0.3
USES_PER_L = 12 / 7
USES_SOURCE = "12 uses for 7 L, from memory, unverified; ask maker and land manager"
MEASURED = "Rose et al. 2015, doi 10.1080/10643389.2014.1000761: 128 g a person and day, read"


def waste(problem: Problem, timeline: Timeline) -> Part:
    """Trash and human waste of nights and stays [g], their containers, and all that goes down."""
    meals = night_meals(problem, timeline)
    made = sacks(problem, timeline, meals)
    per_person = as_given("waste", problem.waste.waste_g_per_person_night, "g/person-night")
    trash_g: dict[tuple[int, str], int] = {}
    for meal in meals:
        key = (meal.day, meal.place_id)
        trash_g[key] = trash_g.get(key, 0) + meal.people * meal.night_set.packaging_g
    figures: list[Figure] = []
    for night in timeline.nights:
        for place_id in dict.fromkeys(place for _, place in night.sleeps_at):
            people = as_given("people", len(night.sleepers_at(place_id)), "people")
            about = (("place_id", place_id), ("day", night.day))
            figures += [
                _grams(
                    "trash", about, trash_g.get((night.day, place_id), 0),
                    "people × packaging of the night set", (people,),
                ),
                _grams(
                    "human_waste", about, int(people.value) * int(per_person.value),
                    "people × waste", (people, per_person),
                ),
            ]  # fmt: skip
    figures += _stays(made)
    containers, notices = _containers(timeline)
    figures += containers
    figures.append(
        _grams("waste_carried_down", (), sum(sack.mass_g for sack in made), "all sacks", ())
    )
    return Part(tuple(figures), (*notices, *_notices(problem, made)))


def _grams(
    figure_id: str,
    about: tuple[tuple[str, str | int], ...],
    value: int,
    formula: str,
    inputs: tuple[Input, ...],
) -> Figure:
    source = "night sets and waste of the request"
    return Figure(figure_id, about, value, "g", formula, source, "computed", inputs)


def _stays(made: tuple[Sack, ...]) -> list[Figure]:
    """Trash and waste of each stay, as the sacks that the plan carries hold them."""
    held: dict[tuple[str, str, str, int], list[int]] = {}
    for sack in made:
        kind, number = sack.unit_id.partition("/")[0], sack.unit_id.rpartition("/")[2]
        held.setdefault((kind, sack.place_id, number.partition("-")[0], sack.day), []).append(
            sack.mass_g
        )
    ids = {"trash": "trash_of_stay", "human-waste": "human_waste_of_stay"}
    return [
        _grams(
            ids[kind],
            (("place_id", place_id), ("stay", int(stay)), ("day", day)),
            sum(masses_g),
            "sum over the stay's nights",
            (as_given("sacks", len(masses_g), "sacks"),),
        )
        for (kind, place_id, stay, day), masses_g in held.items()
    ]


def _containers(timeline: Timeline) -> tuple[list[Figure], list[Notice]]:
    """Sealed containers of each stay [count], and the most that are in use at once.

    A stay's containers are emptied into sealed sacks when it ends.
    """
    person_nights: dict[tuple[str, int], int] = {}
    first: dict[str, int] = {}
    last: dict[str, int] = {}
    for night in timeline.nights:
        for place_id in dict.fromkeys(place for _, place in night.sleeps_at):
            if last.get(place_id) != night.day - 1:
                first[place_id] = night.day
            last[place_id] = night.day
            key = (place_id, first[place_id])
            people = len(night.sleepers_at(place_id))
            person_nights[key] = person_nights.get(key, 0) + people
    ends = {key: _last_night(timeline, *key) for key in person_nights}
    try:
        counts = {
            key: max(
                containers_by_volume(
                    person_days=nights, container_l=CONTAINER_L, l_per_person_day=L_PER_PERSON_DAY
                ),
                containers_by_uses(person_days=nights, uses_per_container=USES_PER_L * CONTAINER_L),
            )
            for key, nights in person_nights.items()
        }
    except ValueError as error:
        return [], [out_of_range("human_waste_containers", (), error)]
    sizes = (
        assumed("container", CONTAINER_L, "L"),
        assumed("waste_volume", L_PER_PERSON_DAY, "L/person-day"),
        assumed("uses", round(USES_PER_L * CONTAINER_L, 1), "uses/container", USES_SOURCE),
    )
    formula = (
        "the larger of person-nights × 1.20 uses / uses of a container and person-nights × waste "
        "volume / container, rounded up"
    )
    figures = [
        Figure(
            "human_waste_containers",
            (("place_id", place_id), ("day", day)),
            counts[place_id, day],
            "containers",
            formula,
            PRACTICE,
            "practice",
            (as_given("person_nights", nights, "person-nights"), *sizes),
        )
        for (place_id, day), nights in person_nights.items()
    ]
    at_once = max(
        (
            sum(count for key, count in counts.items() if key[1] <= night.day <= ends[key])
            for night in timeline.nights
        ),
        default=0,
    )
    words = f"{formula}; the most in use on one night, emptied into sacks after each stay"
    figures.append(
        Figure(
            "human_waste_containers", (), at_once, "containers", words, PRACTICE, "practice", sizes
        )
    )
    return figures, []


def _last_night(timeline: Timeline, place_id: str, first: int) -> int:
    """The last night of the stay at a place that begins on a night."""
    last = first
    for night in timeline.nights:
        if night.day == last + 1 and night.sleepers_at(place_id):
            last = night.day
    return last


def _notices(problem: Problem, made: tuple[Sack, ...]) -> list[Notice]:
    given = problem.waste.waste_g_per_person_night
    measured = measured_faeces_g(person_days=1)
    total_kg = sum(sack.mass_g for sack in made) / 1000
    found = [
        Notice(
            "waste_in_loads",
            (),
            f"All trash and human waste, {total_kg:.1f} kg in {len(made)} sacks, is in the "
            "homeward loads: each sack stands at its place from the stay's last night and ends at "
            "the start.",
        )
    ]
    if given < measured:
        found.append(
            Notice(
                "waste_below_measured",
                (),
                f"{given} g of human waste a person and night is less than what people make "
                f"({MEASURED}); the homeward loads count {given} g.",
            )
        )
    return found
