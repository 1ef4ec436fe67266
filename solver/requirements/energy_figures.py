"""Energy written as figures and notices: formula, source, parts and range beside each."""

from __future__ import annotations

from solver.requirements.body import (
    RESTING_FORMULA,
    RESTING_SOURCE,
    TOTAL_FORMULA,
    TOTAL_SOURCE,
    Body,
    inactive_kcal_per_day,
    resting_kcal_per_day,
)
from solver.requirements.day_parts import SHARES_SOURCE, WholeDay
from solver.requirements.exertion import Exertion
from solver.requirements.figures import About, Figure, Input, Notice
from solver.requirements.surroundings import PRACTICE, assumed

WALKING_SOURCE = (
    "Looney et al. 2022, Med Sci Sports Exerc 54:646, coefficients quoted, with 10 % for boots "
    "(from memory, unverified); sinking into snow Ramaswamy et al. 1966, J Appl Physiol 21:1747, "
    "abstract read"
)
SLED_SOURCE = "mechanics of a block on an incline"
DAY_FORMULA = (
    "0.95 rest asleep + 1.4 rest awake + travel + sled + camp work, and digestion, a ninth of the "
    "hours asleep and awake; measured rates of travel and work hold their own"
)
DAY_SOURCE = (
    "camp work 314 kcal/h for 80 kg, Halsey et al. 2015, doi 10.1007/s00300-015-1818-5, estimated "
    "from heart rate and acceleration (abstract read); rest at elevation Butterfield et al. 1992 "
    "(from memory, unverified) and Gill and Pugh 1964 (abstract read); sleep and waking hours "
    f"FAO 2004 (from memory, unverified). {SHARES_SOURCE}"
)
CAUTION = Notice(
    "energy_is_an_estimate",
    (),
    "Energy figures are estimates, good to about a fifth, and for a single person to less. They "
    "are neither medical nor dietary advice: a physician and your own experience decide. Few "
    "measured days are of roped parties with pack and sled. Weigh people before and after, count "
    "what is eaten, and change the food, not the people. Food beyond the need shown is no reason "
    "to take less.",
    is_caution=True,
)


def beyond_range(about: About, held: tuple[str, ...]) -> Notice:
    """That values beyond an equation's range are held at its end."""
    words = "; ".join(held)
    return Notice(
        "energy_beyond_range",
        about,
        f"Energy beyond the range of its equation: {words}. The figure is of the nearest valid "
        "value, and less sure than others.",
    )


def without_time(about: About, assumption: str) -> Notice:
    """That the time of a leg had to be assumed."""
    return Notice(
        "energy_time_assumed",
        about,
        f"The time of this leg is not known, so {assumption} for the energy ({PRACTICE}). Give "
        "hours with the leg.",
    )


def at_home(person_id: str, body: Body) -> tuple[Figure, Figure]:
    """Energy at rest and of an ordinary day at home."""
    about = (("person_id", person_id),)
    return (
        Figure(
            "resting_energy",
            about,
            resting_kcal_per_day(body),
            "kcal/day",
            RESTING_FORMULA,
            RESTING_SOURCE,
            "memory-unverified",
            body.inputs,
        ),
        Figure(
            "total_energy",
            about,
            inactive_kcal_per_day(body),
            "kcal/day",
            TOTAL_FORMULA,
            TOTAL_SOURCE,
            "quoted",
            (*body.inputs, assumed("activity", "inactive", "", f"a day at home: {PRACTICE}")),
        ),
    )


def of_day(
    person_id: str,
    day: int,
    whole: WholeDay,
    efforts: tuple[Exertion, ...],
    inputs: tuple[Input, ...],
) -> list[Figure]:
    """A day's energy with its parts and range, and what was walked and hauled on it."""
    about = (("person_id", person_id), ("day", day))
    moved = tuple(each for effort in efforts for each in effort.inputs)
    figures = []
    travel, sled = whole.part("travel"), whole.part("sled")
    if efforts:
        formula = "gross rate × hours, over climbs and descents of all trips, and sinking into snow"
        figures.append(
            Figure(
                "walking_energy", about, travel.kcal, "kcal", formula, WALKING_SOURCE, "quoted",
                moved,
            )
        )  # fmt: skip
    if sled.kcal > 0:
        pulled = tuple(each for each in moved if each.name.startswith(("sled", "muscular")))
        formula = "m g (friction cos a + sin a) × distance / efficiency, never below 0"
        figures.append(
            Figure(
                "sled_energy", about, sled.kcal, "kcal", formula, SLED_SOURCE, "computed", pulled,
            )
        )  # fmt: skip
    figures.append(
        Figure(
            "day_energy",
            about,
            whole.kcal,
            "kcal",
            DAY_FORMULA,
            DAY_SOURCE,
            "memory-unverified",
            inputs,
            whole.kcal - whole.off_kcal,
            whole.kcal + whole.off_kcal,
            whole.most_uncertain,
            tuple((part.name, part.kcal) for part in whole.parts),
        )
    )
    return figures
