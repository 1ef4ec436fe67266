"""Evacuation possible: a person who is ill can be taken down while the others stay.

For each person named in the request, else for everybody, and each night away from the start
place: those who sleep there can part into one party that leaves, the ill person with enough able
companions and a guide on guided trips, and one that stays, each big enough, with guides enough,
and with its own rope, rescue kit, shelter, stove, pot, shovel, communicator, medical kit and
navigation.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.facts import Facts
from solver.checker.queries.evacuation import splits
from solver.checker.queries.telling import nights_words
from solver.checker.queries.words import listed
from solver.plan import Finding

RULE = "evacuation_possible"


def evacuation_possible(facts: Facts) -> Iterator[Finding]:
    """Nights on which nobody could be taken down but with everybody, by what is missing."""
    all_splits = list(splits(facts))
    possible = {split.person_id for split in all_splits if not split.missing}
    same: dict[tuple[int, str, tuple[str, ...]], list[str]] = {}
    for split in all_splits:
        if split.missing:
            alike = (split.day, split.place_id, split.missing)
            same.setdefault(alike, []).append(split.person_id)
    nights: dict[tuple[tuple[str, ...], tuple[str, ...]], list[tuple[int, str]]] = {}
    for (day, place_id, missing), names in same.items():
        nights.setdefault((tuple(names), missing), []).append((day, place_id))
    for (people, missing), where in nights.items():
        never = not possible & set(people)
        yield Finding(
            RULE,
            _message(people, missing, where, never=never),
            len(where),
            "nights",
            (("day", where[0][0]), ("place", where[0][1]), ("person", people[0])),
            (
                *missing,
                "everybody who is there goes down together, as is meant without more",
            ),
        )


def _message(
    people: tuple[str, ...],
    missing: tuple[str, ...],
    nights: list[tuple[int, str]],
    *,
    never: bool,
) -> str:
    whom = people[0] if len(people) == 1 else f"any one of {listed(people)}"
    how = "can be taken down only with everybody" if never else "can go down only with everybody"
    return (
        f"{whom} {how}, {nights_words(nights)}: for one party that leaves and one that stays, "
        f"{listed(missing)} would be needed"
    )
