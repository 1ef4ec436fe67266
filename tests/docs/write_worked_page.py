"""Writes the worked page from snow to cans anew, for one camp of an example.

python -m tests.docs.write_worked_page
"""

from __future__ import annotations

import json
import math
from pathlib import Path

from service.translate.read.requests import read_plan_request
from solver.calculators.fuel_chain_text import fuel_chain_steps
from solver.problem import Problem, RuleSettings, read_timeline
from solver.requirements.figures import Figure, Input
from solver.requirements.fuel import fuel
from solver.requirements.stove_chain import camp_chain
from solver.requirements.water import water

EXAMPLES = Path(__file__).parents[2] / "examples"
EXAMPLE = "independent-three"
CAMP = "camp-3"
PAGE = EXAMPLES / "snow-to-cans.md"

HEAD = f"""# From snow to cans

The fuel of the high camp of `{EXAMPLE}.json`, step by step with every number. The command
`python -m tests.docs.write_worked_page` writes this page with the code that answers requests.
Numbers are rounded for reading. Do not compute with them.
"""


def worked_page() -> str:
    """The page for the camp of the example."""
    document = json.loads((EXAMPLES / f"{EXAMPLE}.json").read_text(encoding="utf-8"))
    problem = read_plan_request(document).problem
    figures = fuel(problem, read_timeline(problem)).figures
    return "\n".join((HEAD, *_one_night(problem), *_camp(problem, figures), *_trip(figures)))


def _one_night(problem: Problem) -> list[str]:
    place = problem.route.place(CAMP)
    found = camp_chain(
        elevation_m=place.elevation_m,
        night_temperature_c=place.night_temperature_c,
        storm=False,
        density_g_per_l=problem.fuel_density_g_per_l,
        conditions=problem.conditions,
        rules=RuleSettings(),
    )
    made = next(
        f for f in water(problem, read_timeline(problem)).figures
        if f.figure_id == "water_rehydration" and ("place_id", CAMP) in f.about
    )  # fmt: skip
    steps = [
        f"{number}. {step}"
        for number, step in enumerate(
            (s for s in fuel_chain_steps(chain=found.chain) if not s.startswith("A margin")), 1
        )
    ]
    rows = [_row(told) for told in found.inputs]
    return [
        "## What goes in",
        "",
        (
            f"For one person and one night at {CAMP}. Of the water that is boiled, "
            f"{made.value:.2f} L go into dried meals."
        ),
        "",
        "| input | value | unit | from |",
        "|---|---|---|---|",
        *rows,
        "",
        "## One person, one night",
        "",
        *steps,
        "",
    ]


def _row(told: Input) -> str:
    value = f"{told.value:.10g}" if isinstance(told.value, int | float) else told.value
    if isinstance(told.value, float):
        value = f"{told.value:.5g}"
    source = f"default: {told.source}" if told.is_default else "the request"
    return f"| {told.name.replace('_', ' ')} | {value} | {told.unit or '-'} | {source} |"


def _camp(problem: Problem, figures: tuple[Figure, ...]) -> list[str]:
    """The nights at the camp, the margin and the reserve, each a number of its own."""
    found = {f.figure_id: f for f in figures if ("place_id", CAMP) in f.about}
    each, nights = found["fuel_per_person_night"].value, _input(found["fuel_at_camp"], 1)
    reserve = found["fuel_reserve"]
    storm, people, days = (_input(reserve, index) for index in range(3))
    total = sum(
        found[name].value
        for name in ("fuel_at_camp", "fuel_margin", "fuel_reserve", "fuel_reserve_margin")
    )
    percent = problem.fuel_margin_percent
    kind = dict(reserve.about)["kind"]
    group = problem.cook_groups[0]
    given = problem.night_set(group.cook_group_id, group.set_id_at(CAMP))
    return [
        "## The camp",
        "",
        "| figure | calculation | mL |",
        "|---|---|---|",
        (
            f"| nights | {each:.1f} mL × {nights:.0f} person-nights | "
            f"{found['fuel_at_camp'].value:.0f} |"
        ),
        f"| margin on the nights | {percent} % | {found['fuel_margin'].value:.0f} |",
        (
            f"| {kind} reserve | {storm:.1f} mL × {people:.0f} people × {days:.0f} nights | "
            f"{reserve.value:.0f} |"
        ),
        f"| margin on the reserve | {percent} % | {found['fuel_reserve_margin'].value:.0f} |",
        f"| total | | {total:.0f} |",
        "",
        (
            "The margin is no reserve: it covers spilling, wind and a worse stove. The request "
            f"gives {given.fuel_ml} mL per person and night for the night set `{given.set_id}` at "
            f"this camp, and the steps above give {each:.1f} mL. The plan uses the request's "
            "number. If they differ by more than a fifth, the answer says so."
        ),
        "",
    ]


def _trip(figures: tuple[Figure, ...]) -> list[str]:
    """The containers of the whole expedition."""
    rows = []
    for figure in figures:
        if figure.figure_id == "fuel_containers":
            taken = next(
                f for f in figures
                if f.figure_id == "fuel_containers_taken" and f.about == figure.about
            )  # fmt: skip
            name = dict(figure.about)["container_id"]
            content = next(i.value for i in figure.inputs if i.name == "content")
            rows.append(f"| {name} | {content} | {figure.value:.0f} | {taken.value:.0f} |")
    burnt = next(
        _input(f, 0) for f in figures if f.figure_id == "fuel_containers"
    )  # fmt: skip
    litres = math.fsum(f.value for f in figures if f.figure_id == "fuel_at_camp") / 1000
    return [
        "## The cans",
        "",
        (
            f"All camps together burn {litres:.2f} L, or {burnt / 1000:.2f} L with the margin. "
            "Each night uses the kinds of container in their order. Each reserve has whole, "
            "unopened containers of its own. A reserve that is no longer held may be burnt. The "
            "night that needs the most containers decides how many are taken:"
        ),
        "",
        "| container | content, mL | needed by these steps | taken by the plan |",
        "|---|---|---|---|",
        *rows,
        "",
    ]


def _input(figure: Figure, index: int) -> float:
    value = figure.inputs[index].value
    if isinstance(value, str):
        raise TypeError(f"{figure.inputs[index].name} is no number")
    return value


if __name__ == "__main__":
    PAGE.write_text(worked_page(), encoding="utf-8")
