"""Requests at and towards the limits of size, with every rule waived that may be.

    python -m tests.pipeline.large_worlds 48 60 800 [seconds]

asks for so many people, days and items, and says how the answer ended and in what time.
"""

from __future__ import annotations

import sys
import time
from random import Random
from typing import Any

from service.translate.read.requests import read_plan_request
from solver.errors import WithheldPlanError
from solver.outcome import Limits, Solved
from solver.pipeline import plan
from solver.progress import Watch
from solver.rulebook import RULES, RuleKind

Document = dict[str, Any]
NEEDS = ("every_night", "every_trip", "every_night", "every_night")


def large_request(people: int, days: int, items: int, seed: int = 1) -> Document:
    """A request of so many people, days and items in two camps, all waivable rules waived."""
    draw = Random(f"large {people} {days} {items} {seed}")
    roster: list[Document] = [
        {
            "person_id": f"m{number}",
            "body_mass": f"{draw.randint(55, 90)} kg",
            "pack_cap": "60 kg",
            "pack_volume": "300 L",
            "rope_team": f"r{number // 4}",
            "cook_group": f"g{number // 8}",
        }
        | ({"sled_cap": "120 kg", "total_cap": f"{draw.randint(60, 160)} kg"} if number % 2 else {})
        for number in range(people)
    ]
    gear = []
    for number in range(items):
        thing: Document = {
            "item_id": f"thing-{number}",
            "mass": f"{draw.randint(20, 900)} g",
            "volume": f"{draw.randint(1, 20) / 10} L",
            "needed": draw.choice(NEEDS),
        }
        if draw.random() < 0.5:
            draw.choice(roster).setdefault("extra_items", []).append(thing)
        else:
            gear.append(thing)
    waived = [
        {"rule_id": rule.rule_id, "reason": "a world at the limits of size"}
        for rule in RULES
        if rule.kind is RuleKind.HARD and not rule.firm
    ]
    return {
        "route": {
            "places": [
                {"place_id": "road", "elevation": "1450 m"},
                {"place_id": "camp-1", "elevation": "2050 m", "night": "-8 degC"},
                {"place_id": "camp-2", "elevation": "2750 m", "night": "-12 degC"},
            ],
            "legs": [
                {
                    "from": "road",
                    "to": "camp-1",
                    "distance": "9 km",
                    "mode": "sled",
                    "crevasse_hazard": "low",
                },
                {
                    "from": "camp-1",
                    "to": "camp-2",
                    "distance": "7 km",
                    "mode": "pack",
                    "crevasse_hazard": "low",
                },
            ],
        },
        "calendar": _calendar(days),
        "roster": roster,
        "gear": gear,
        "rules": {"waivers": waived},
    }


def _calendar(days: int) -> list[list[str]]:
    """Carries and nights at the first camp, then at the second, and home on the last day."""
    half = max(1, (days - 3) // 2)
    low = [["camp-1", "road", "camp-1"] if n % 3 == 0 else ["camp-1"] for n in range(half)]
    high = [
        ["camp-2", "camp-1", "camp-2"] if n % 3 == 0 else ["camp-2"] for n in range(days - 3 - half)
    ]
    return [
        ["road", "camp-1"],
        *low,
        ["camp-1", "camp-2"],
        *high,
        ["camp-2", "camp-1", "road"],
    ]


def ending(document: Document, seconds: float) -> str:
    """How the answer to a document ended: its kind, or why the plan was withheld."""
    read = read_plan_request(document)
    limits = Limits(wall_seconds=seconds, workers=1, gap=100)
    try:
        outcome = plan(read.problem, limits, Watch(seconds, now=time.monotonic))
    except WithheldPlanError as error:
        return f"withheld: {'; '.join(error.findings[:3])}"
    peak = f" with a peak of {outcome.peak.value}" if isinstance(outcome, Solved) else ""
    return f"{type(outcome).__name__}{peak}"


def main(people: int, days: int, items: int, seconds: int = 60) -> int:
    """Ask one large world; 1 where its plan is withheld."""
    begun = time.monotonic()
    told = ending(large_request(people, days, items), seconds)
    took = time.monotonic() - begun
    sys.stdout.write(f"{people} people, {days} days, {items} items: {told} after {took:.1f} s\n")
    return 1 if told.startswith("withheld") else 0


if __name__ == "__main__":
    sys.exit(main(*map(int, sys.argv[1:])))
