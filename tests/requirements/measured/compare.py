"""Whole days of measured groups: read, computed by the product's own code, laid side by side."""

from __future__ import annotations

import csv
from dataclasses import dataclass
from pathlib import Path

from solver.calculators.resting_energy import mifflin_1990_resting_kcal_per_day
from solver.calculators.whole_day import resting_height_factor
from solver.requirements.day_parts import WholeDay, whole_day
from solver.requirements.moving import Stretch, moving_cost

GROUPS = Path(__file__).parent / "groups.csv"
TABLE = Path(__file__).parent / "table.md"


@dataclass(frozen=True, slots=True)
class Compared:
    """One group's measured mean beside the computed day."""

    group_id: str
    held_out: bool
    who: str
    measured_kcal: float
    measured_sd: str
    day: WholeDay

    @property
    def ratio(self) -> float:
        """Computed over measured [1]."""
        return self.day.kcal / self.measured_kcal


def groups() -> list[dict[str, str]]:
    """The rows of the file of groups, without its comment lines."""
    lines = GROUPS.read_text(encoding="utf-8").splitlines()
    return list(csv.DictReader((line for line in lines if not line.startswith("#")), strict=True))


def compared(row: dict[str, str]) -> Compared:
    """A group's day by the product's own equations and its committed inputs."""
    number = {name: float(row[name]) for name in row if name in _NUMBERS}
    resting = mifflin_1990_resting_kcal_per_day(
        sex="female" if row["sex"] == "female" else "male",
        body_mass_kg=number["body_mass_kg"],
        height_cm=100 * number["height_m"],
        age_years=number["age_years"],
    )
    rate = resting / 24 * resting_height_factor(elevation_m=number["elevation_m"])
    cost = moving_cost(
        Stretch(
            hours=number["travel_h"],
            distance_km=number["distance_km"],
            ascent_m=number["ascent_m"],
            descent_m=number["descent_m"],
            pack_kg=number["pack_kg"],
            sled_kg=number["sled_kg"],
            friction=number["friction"],
            terrain_factor=number["terrain_factor"],
            sinkage_cm=number["sinkage_cm"],
        ),
        body_mass_kg=number["body_mass_kg"],
        resting_kcal_per_hour=rate,
    )
    day = whole_day(
        resting_kcal_per_hour=rate,
        body_mass_kg=number["body_mass_kg"],
        travel_h=number["travel_h"],
        camp_work_h=number["work_h"],
        travel_kcal=cost.walking_kcal,
        sled_kcal=cost.sled_kcal,
        sleep_h=number["sleep_h"],
    )
    return Compared(
        row["group_id"],
        row["held_out"] == "yes",
        row["who"],
        float(row["measured_kcal"]),
        row["measured_sd"],
        day,
    )


_NUMBERS = frozenset(
    {
        "body_mass_kg",
        "height_m",
        "age_years",
        "elevation_m",
        "travel_h",
        "distance_km",
        "ascent_m",
        "descent_m",
        "pack_kg",
        "sled_kg",
        "friction",
        "terrain_factor",
        "sinkage_cm",
        "work_h",
        "sleep_h",
    }
)


def table(rows: list[Compared]) -> str:
    """The comparison as a document: held-out groups, their mean, misses by name, the others."""
    held_out = [row for row in rows if row.held_out]
    mean = sum(row.ratio for row in held_out) / len(held_out)
    missed = [row.group_id for row in rows if abs(row.ratio - 1) > WITHIN_EACH]
    head = "| group | who | measured | computed, with range | computed / measured | parts |"
    rule = "|---|---|---|---|---|---|"
    return "\n".join(
        (
            "# Computed days beside measured days",
            "",
            "Written by `tests/requirements/measured/test_measured_groups.py` from the product's",
            "own code; `groups.csv` holds the sources and the inputs, fixed before the comparison.",
            "Most papers print neither loads nor hours, so agreement shows that the model is",
            "plausible, not that it is exact: other assumptions within reason move a day by a",
            "fifth. Whoever fixed the inputs could see the measured values. No group is a roped",
            "glacier party with pack and sled: none has been measured. kcal a person and day.",
            "",
            "## Held out: no constant was chosen with these",
            "",
            head,
            rule,
            *(_line(row) for row in held_out),
            "",
            f"Mean of computed / measured: {mean:.2f}. Groups: {len(held_out)}.",
            "",
            "## Shown beside them: used in earlier checks, or inputs known too badly",
            "",
            head,
            rule,
            *(_line(row) for row in rows if not row.held_out),
            "",
            f"More than 20 % off: {', '.join(missed) or 'none'}.",
            "",
        )
    )


WITHIN_MEAN = 0.10
WITHIN_EACH = 0.20


def _line(row: Compared) -> str:
    spread = f" ± {row.measured_sd}" if row.measured_sd else ""
    parts = ", ".join(f"{part.name.replace('_', ' ')} {part.kcal:.0f}" for part in row.day.parts)
    return (
        f"| {row.group_id} | {row.who} | {row.measured_kcal:.0f}{spread} | "
        f"{row.day.kcal:.0f} ± {row.day.off_kcal:.0f} | {row.ratio:.2f} | {parts} |"
    )
