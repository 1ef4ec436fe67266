"""Fuel camp by camp: the chain from snow to fuel, the nights' use, the margin, each reserve."""

from __future__ import annotations

from solver.problem import FuelKind, Problem, Reserve, Timeline
from solver.requirements.canisters import canister_part, gas_left_inside
from solver.requirements.consumption import NightMeal, night_meals
from solver.requirements.figures import About, Figure, Input, Notice, Part
from solver.requirements.fuel_cans import FuelNight, container_part
from solver.requirements.melting import melting_part
from solver.requirements.provisions import supplies
from solver.requirements.reserves import ReserveNight, reserve_nights
from solver.requirements.stove_chain import CampChain, camp_chain, chain_fuel_ml, fuel_of
from solver.requirements.surroundings import as_given, out_of_range

__all__ = ["CAUTIONS", "chain_fuel_ml", "fuel"]

Chains = dict[tuple[str, bool], CampChain]
"""Chains by place and whether for a storm night."""

DIFFERENCE_PERCENT = 20
DENSITY_DIFFERENCE = 0.1
CHAIN_SOURCE = (
    "heats of IAPWS-06 and IAPWS-95, standard atmosphere, lower heating value by fuel; stove "
    "efficiency from memory, unverified"
)
CAUTIONS = (
    Notice(
        "carbon_monoxide",
        (),
        "A burning stove makes carbon monoxide, which has no smell and kills. Cook outside or "
        "under a wide open vent, keep snow from sealing the shelter, and never sleep beside a "
        "burning stove. Headache or drowsiness: out into the air at once.",
        is_caution=True,
    ),
    Notice(
        "fuel_contact",
        (),
        "Liquid fuel as cold as the night freezes skin at a touch and soaks gloves and sleeping "
        "bags. Pour with fuel-proof gloves, away from flames, food and down.",
        is_caution=True,
    ),
)


def fuel(problem: Problem, timeline: Timeline) -> Part:
    """Fuel of each camp, cook group and reserve [mL], the containers for it, and what to mind."""
    chains, notices = _chains(problem, timeline)
    notices.extend(_density(problem))
    figures = [
        figure
        for (place_id, storm), found in chains.items()
        if not storm
        for figure in _steps(place_id, found)
    ]
    meals = night_meals(problem, timeline)
    for (group_id, place_id), ours in _by_camp(meals).items():
        if (place_id, False) in chains:
            found = chains[place_id, False]
            figures.extend(_at_camp(problem, group_id, place_id, ours, found))
            notices.extend(_comparison(group_id, place_id, ours, found))
    held = reserve_nights(problem, timeline)
    for reserve, people in _most_people(held).items():
        key = reserve.place_id, _is_storm(problem, reserve)
        if key in chains:
            figures.extend(_reserve(problem, reserve, people, chains[key]))
    parts = [
        Part(tuple(figures), tuple(notices)),
        canister_part(problem, timeline),
        melting_part(problem, _by_camp(meals), chains),
        *_containers(problem, timeline, meals, held, chains),
    ]
    return Part(
        tuple(figure for part in parts for figure in part.figures),
        (*(notice for part in parts for notice in part.notices), *CAUTIONS),
    )


def _containers(
    problem: Problem,
    timeline: Timeline,
    meals: tuple[NightMeal, ...],
    held: tuple[ReserveNight, ...],
    chains: Chains,
) -> list[Part]:
    """Containers of each kitchen, where the chain is known for all of its nights."""
    wanted = {(m.place_id, False) for m in meals}
    wanted |= {(r.reserve.place_id, _is_storm(problem, r.reserve)) for r in held}
    if not wanted <= chains.keys():
        return []
    margin = 1 + problem.fuel_margin_percent / 100
    taken = dict[str, dict[str, int]]()
    for kind, count in supplies(problem, timeline).containers:
        taken.setdefault(kind.cook_group_id, {})[kind.container_id] = count
    left_inside = gas_left_inside(problem, timeline)
    parts = []
    for group in problem.kitchens:
        theirs = {each.cook_group_id for each in problem.fed_from(group)}
        people = sum(len(problem.members(group_id)) for group_id in theirs)
        nights, burnt_ml = [], 0.0
        for meal in meals:
            if meal.cook_group_id != group.cook_group_id:
                continue
            burnt_ml += people * chains[meal.place_id, False].chain.fuel_ml * margin
            reserves_ml = tuple(
                night.people
                * night.reserve.nights
                * chains[night.reserve.place_id, _is_storm(problem, night.reserve)].chain.fuel_ml
                * margin
                for night in held
                if night.day == meal.day and night.reserve.cook_group_id in theirs
            )
            nights.append(FuelNight(burnt_ml, reserves_ml))
        parts.append(
            container_part(group, tuple(nights), taken.get(group.cook_group_id, {}), left_inside)
        )
    return parts


def _chains(problem: Problem, timeline: Timeline) -> tuple[Chains, list[Notice]]:
    """The chain of each place and kind of night that is asked for; why some are missing."""
    wanted = dict.fromkeys(
        (place_id, False) for night in timeline.nights for _, place_id in night.sleeps_at
    )
    wanted |= dict.fromkeys((r.place_id, _is_storm(problem, r)) for r in problem.reserves)
    chains: Chains = {}
    notices: dict[tuple[str, str], Notice] = {}
    for place_id, storm in wanted:
        place = problem.route.place(place_id)
        try:
            chains[place_id, storm] = camp_chain(
                elevation_m=place.elevation_m,
                night_temperature_c=place.night_temperature_c,
                storm=storm,
                density_g_per_l=problem.fuel_density_g_per_l,
                conditions=problem.conditions,
                rules=problem.rules,
            )
        except ValueError as error:
            about = (("place_id", place_id),)
            named_once = (place_id, str(error))
            notices.setdefault(named_once, out_of_range("fuel_per_person_night", about, error))
    return chains, list(notices.values())


def _steps(place_id: str, found: CampChain) -> list[Figure]:
    """Each step of the chain at a camp, for one person and night before any margin."""
    chain = found.chain
    per_l = "warming snow + melting it + warming water"
    about: About = (("place_id", place_id),)
    return [
        Figure(figure_id, about, value, unit, formula, CHAIN_SOURCE, "computed", found.inputs)
        for figure_id, value, unit, formula in (
            ("melt_heat", chain.melt_kj_per_l, "kJ/L", f"{per_l} to drink"),
            ("boil_heat", chain.boil_kj_per_l, "kJ/L", f"{per_l} to the camp's boiling point"),
            (
                "heat_per_person_night",
                chain.useful_kj,
                "kJ/person-night",
                "melted × melt heat + boiled × boil heat",
            ),
            (
                "fuel_mass_per_person_night",
                chain.fuel_g,
                "g/person-night",
                "heat / (lower heating value × efficiency)",
            ),
            ("fuel_per_person_night", chain.fuel_ml, "mL/person-night", "fuel mass / density"),
        )
    ]


def _by_camp(meals: tuple[NightMeal, ...]) -> dict[tuple[str, str], list[NightMeal]]:
    found: dict[tuple[str, str], list[NightMeal]] = {}
    for meal in meals:
        found.setdefault((meal.cook_group_id, meal.place_id), []).append(meal)
    return found


def _at_camp(
    problem: Problem, group_id: str, place_id: str, meals: list[NightMeal], found: CampChain
) -> list[Figure]:
    """What a cook group burns at a camp over the trip, and the margin on it, apart."""
    person_nights = sum(meal.people for meal in meals)
    about = (("cook_group_id", group_id), ("place_id", place_id))
    fuel_ml = found.chain.fuel_ml * person_nights
    inputs = (
        Input("fuel_per_person_night", found.chain.fuel_ml, "mL", is_default=False),
        as_given("person_nights", person_nights, "person-nights"),
    )
    return [
        Figure(
            "fuel_at_camp", about, fuel_ml, "mL", "fuel per person-night × person-nights",
            CHAIN_SOURCE, "computed", inputs,
        ),
        _margin("fuel_margin", about, fuel_ml, problem),
    ]  # fmt: skip


def _margin(figure_id: str, about: About, fuel_ml: float, problem: Problem) -> Figure:
    percent = problem.fuel_margin_percent
    return Figure(
        figure_id,
        about,
        fuel_ml * percent / 100,
        "mL",
        "fuel × margin",
        "the request's margin, no reserve",
        "computed",
        (as_given("fuel", fuel_ml, "mL"), as_given("margin", percent, "%")),
    )


def _is_storm(problem: Problem, reserve: Reserve) -> bool:
    return problem.night_set(reserve.cook_group_id, reserve.set_id).storm


def _most_people(held: tuple[ReserveNight, ...]) -> dict[Reserve, int]:
    """Each reserve that is ever held with the most people whom it serves on one night."""
    most: dict[Reserve, int] = {}
    for night in held:
        most[night.reserve] = max(night.people, most.get(night.reserve, 0))
    return most


def _reserve(problem: Problem, reserve: Reserve, people: int, found: CampChain) -> list[Figure]:
    """What one reserve holds, and the margin on it, apart."""
    about = (
        ("cook_group_id", reserve.cook_group_id),
        ("place_id", reserve.place_id),
        ("kind", reserve.kind.value),
    )
    fuel_ml = found.chain.fuel_ml * people * reserve.nights
    inputs = (
        Input("fuel_per_person_night", found.chain.fuel_ml, "mL", is_default=False),
        as_given("people", people, "people"),
        as_given("nights", reserve.nights, "nights"),
    )
    return [
        Figure(
            "fuel_reserve", about, fuel_ml, "mL", "fuel per person-night × people × nights",
            CHAIN_SOURCE, "computed", inputs,
        ),
        _margin("fuel_reserve_margin", about, fuel_ml, problem),
    ]  # fmt: skip


def _comparison(
    group_id: str, place_id: str, meals: list[NightMeal], found: CampChain
) -> list[Notice]:
    """Where the night set's fuel and the chain's differ by more than a fifth of the chain's."""
    chain_ml, given_ml = found.chain.fuel_ml, meals[0].night_set.fuel_ml
    if 100 * abs(given_ml - chain_ml) <= DIFFERENCE_PERCENT * chain_ml:
        return []
    set_id = meals[0].night_set.set_id
    word = "less" if given_ml < chain_ml else "more"
    return [
        Notice(
            "fuel_differs",
            (("cook_group_id", group_id), ("place_id", place_id), ("set_id", set_id)),
            f"Night set {set_id} burns {given_ml} mL a person and night at {place_id}, "
            f"{100 * abs(given_ml / chain_ml - 1):.0f} % {word} than the {chain_ml:.0f} mL that "
            "the chain from snow to fuel comes to. The plan keeps to the night set.",
        )
    ]


def _density(problem: Problem) -> list[Notice]:
    """Where the density that the plan weighs fuel with is not that of the fuel that is given."""
    kind = problem.conditions.fuel_kind
    if kind is None:
        return []
    try:
        its_g_per_l = 1000 * fuel_of(problem.conditions).density_kg_per_l
    except ValueError:
        return []
    given = problem.fuel_density_g_per_l
    if abs(given - its_g_per_l) <= DENSITY_DIFFERENCE * its_g_per_l:
        return []
    what = "liquid gas" if kind is FuelKind.CANISTER_GAS else kind.value.replace("_", " ")
    return [
        Notice(
            "fuel_density_differs",
            (),
            f"The plan weighs fuel at {given} g/L; {what} has about {its_g_per_l:.0f} g/L. Give "
            "the density of the fuel.",
        )
    ]
