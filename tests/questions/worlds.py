"""Small worlds for questions: whose kit is too heavy, and how much of it there is."""

from __future__ import annotations

from solver.outcome import Limits
from solver.problem import Problem
from solver.progress import Watch
from tests.rules.worlds import EVERY_NIGHT, item, person, world

LIMITS = Limits(wall_seconds=20.0, workers=1, seed=1, gap=1_000, racing=True)
DAYS = "strip-c1 c1-c2 c2-c1-strip"


def watch(seconds: float = 1e6) -> Watch:
    """A watch without a clock, so that time never ends."""
    return Watch(seconds)


def own_kits(*masses_g: int, cap_g: int = 10_000, days: str = DAYS) -> Problem:
    """People m1, m2, … who each own a kit of some mass, and packs of one cap."""
    names = [f"m{number}" for number in range(1, len(masses_g) + 1)]
    return world(
        days,
        people=tuple(person(name, pack_g=cap_g) for name in names),
        gear=tuple(
            item("kit", EVERY_NIGHT, mass_g=mass_g, owner_id=name)
            for name, mass_g in zip(names, masses_g, strict=True)
        ),
    )


def shared(mass_g: int, *, cap_g: int = 10_000, days: str = DAYS) -> Problem:
    """Two people, and boxes of a kilogram that are needed every night."""
    return world(
        days,
        people=(person("m1", pack_g=cap_g), person("m2", pack_g=cap_g)),
        gear=(item("box", EVERY_NIGHT, mass_g=1_000, count=mass_g // 1_000),),
    )
