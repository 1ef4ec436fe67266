"""Power banks for lamps, phones and beacons, and what a solar panel takes off.

The rates are common practice, no source; the share in the cold names its source.
"""

from __future__ import annotations

from solver.calculators.battery_cold import batteries_needed
from solver.calculators.solar_panel import panel_wh_per_day
from solver.problem import Problem, Timeline
from solver.requirements.figures import Input, Notice
from solver.requirements.surroundings import PRACTICE, assumed
from solver.requirements.tally import Tally, days_input, people_input

GROUP_WH_PER_DAY = 3.0
PERSON_WH_PER_DAY = 2.0
BATTERY_WH = 37.0
CELL_TEMPERATURE_C = 0.0
DARK_DAYS = 3.0


def count_batteries(problem: Problem, _: Timeline, taken: Tally) -> None:
    """Power banks for all lamps, phones and beacons of the trip, less what a panel yields."""
    days, people = days_input(problem), people_input(problem)
    group = assumed("energy_of_group", GROUP_WH_PER_DAY, "Wh/day")
    each = assumed("energy_of_person", PERSON_WH_PER_DAY, "Wh/person-day")
    per_day = GROUP_WH_PER_DAY + PERSON_WH_PER_DAY * len(problem.roster)
    total_wh = per_day * float(days.value)
    panel = _panel(problem, taken)
    if panel is not None:
        dark_wh = per_day * min(DARK_DAYS, float(days.value))
        total_wh = max(dark_wh, (per_day - float(panel.value)) * float(days.value))
    count = batteries_needed(
        energy_wh=total_wh, battery_wh=BATTERY_WH, cell_temperature_c=CELL_TEMPERATURE_C
    )
    sun = "no sun counted" if panel is None else "a panel's yield taken off, 3 dark days kept"
    taken.count(
        "batteries", (), count, "power banks",
        f"energy × 1.25 / (capacity × share that the cold leaves), {sun}, rounded up",
        (
            days, people, group, each, assumed("capacity", BATTERY_WH, "Wh"),
            assumed("cell_temperature", CELL_TEMPERATURE_C, "degC"),
            *(() if panel is None else (panel,)),
        ),
        source=f"share in the cold: BU-502, read; energy, spare quarter and panel: {PRACTICE}",
    )  # fmt: skip


def _panel(problem: Problem, taken: Tally) -> Input | None:
    """Yield of the group's panels on a usual day of the first month; None without any [Wh/day]."""
    given = problem.conditions
    if not given.panel_power_w:
        return None
    if given.latitude_deg is None or given.month is None:
        taken.notices.append(
            Notice(
                "panel_not_counted",
                (),
                "The solar panel is not counted, since its latitude or the start date is not "
                "given. Give both.",
            )
        )
        return None
    yields_wh = panel_wh_per_day(
        rated_w=given.panel_power_w,
        latitude_deg=given.latitude_deg,
        day_of_year=30.4 * (given.month - 0.5),
    )
    source = f"{given.panel_power_w:g} W at {given.latitude_deg:g} deg in month {given.month}"
    return assumed("panel_yield", round(yields_wh, 1), "Wh/day", f"{source}: {PRACTICE}")
