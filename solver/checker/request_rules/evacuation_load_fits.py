"""Evacuation load fits: those who take an ill person down can carry or haul what they need.

For each person named in the request, else for the worst case of all, and each night on which two
parties can be made: own things + shelter + party kit + food and fuel for the nights of an
evacuation + water <= sum of the companions' caps downward + what the ill person carries. A sled of
one companion's counts where it stands and all legs home are sled legs. The cans that the fuel is
in are left out.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.facts import Facts
from solver.checker.queries.evacuation import Split, splits
from solver.checker.queries.telling import kg
from solver.checker.queries.words import listed
from solver.plan import Finding

RULE = "evacuation_load_fits"


def evacuation_load_fits(facts: Facts) -> Iterator[Finding]:
    """The worst night of each person asked about on which the packs are too small."""
    worst: dict[str, Split] = {}
    for split in splits(facts):
        over = split.load_g - split.room_g
        known = worst.get(split.person_id)
        if not split.missing and over > 0 and (known is None or over > known.load_g - known.room_g):
            worst[split.person_id] = split
    tightest = sorted(worst.values(), key=lambda split: split.room_g - split.load_g)
    for split in tightest if facts.problem.evacuations else tightest[:1]:
        over = split.load_g - split.room_g
        yield Finding(
            RULE,
            f"night of day {split.day} at {split.place_id}: {listed(split.leaving)} would take "
            f"{kg(split.load_g)} down, they may carry {kg(split.room_g)}, {kg(over)} too "
            f"much, with at most {facts.problem.rules.whole('evacuee_load_kg')} kg on "
            f"{split.person_id}",
            over,
            "g",
            (("day", split.day), ("place", split.place_id), ("person", split.person_id)),
            (
                "a sled for one of them where all legs home are sled legs",
                f"part of the things of {split.person_id} left behind in a marked cache",
                "one more companion",
            ),
        )
