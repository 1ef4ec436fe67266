"""Shelter for all: each night there is room under cover for everybody where they sleep.

For each night and each place where people sleep: places of the shelters that must be there >=
people. Shelters that every party has on the move count, too: whether one of them is too spare to
sleep in is the leader's to say.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.facts import Facts
from solver.checker.queries.at_night import sure_units
from solver.checker.queries.listed_gear import listed_items
from solver.checker.queries.telling import runs
from solver.checker.queries.words import counted
from solver.plan import Finding
from solver.problem import Night, Purpose

RULE = "shelter_for_all"


def shelter_for_all(facts: Facts) -> Iterator[Finding]:
    """The nights on which people sleep without cover, place by place."""
    missing: dict[str, list[tuple[int, int]]] = {}
    for night in facts.timeline.nights:
        for place_id, amount in _uncovered(facts, night):
            missing.setdefault(place_id, []).append((night.day, amount))
    for place_id, nights in missing.items():
        for run in runs(nights):
            people = len(facts.night(run.first_day).sleepers_at(place_id))
            yield Finding(
                RULE,
                f"{run.words} at {place_id}: {people - run.amount} shelter places for "
                f"{'1 person' if people == 1 else f'{people} people'}",
                run.amount,
                "places",
                (("place", place_id), *run.where),
                (
                    f"shelters with {counted(run.amount, 'place')} more that are there every night",
                    "the number of places of each shelter, if it is not given",
                ),
            )


def _uncovered(facts: Facts, night: Night) -> Iterator[tuple[str, int]]:
    """Places of a night and how many of those who sleep there have no cover."""
    shelters = listed_items(facts, Purpose.SHELTER)
    for place_id in dict.fromkeys(place for _, place in night.sleeps_at):
        covered = sum(
            sure_units(facts, item, night, place_id) * item.shelter_places for item in shelters
        )
        yield place_id, len(night.sleepers_at(place_id)) - covered
