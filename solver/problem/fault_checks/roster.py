"""Faults of the roster: people who stand twice, caps that are none, sleds without a hauler."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from solver.errors import ProblemFault
from solver.problem.fault_checks.wording import Path, below, duplicate_ids, listed, unknown_id
from solver.problem.problem import Problem
from solver.problem.roster import Person

RESERVED_IDS = frozenset({"sled", "trash", "human-waste"})
"""Words that begin the names of sacks and sleds in a plan, and so can be no person or group."""


def person_faults(problem: Problem) -> Iterator[ProblemFault]:
    """Nobody at all, ids that stand twice, unknown cook groups, caps that carry nothing."""
    if not problem.roster:
        yield ProblemFault(("roster",), "empty", "The roster is empty. Name at least one person.")
    ids = [person.person_id for person in problem.everybody]
    yield from duplicate_ids(("roster",), "person_id", ids, "person")
    groups = [group.cook_group_id for group in problem.cook_groups]
    for index, person in enumerate(problem.roster):
        where: Path = ("roster", index)
        if person.person_id in RESERVED_IDS:
            yield reserved_id((*where, "person_id"))
        if person.cook_group_id not in groups:
            yield unknown_id((*where, "cook_group_id"), person.cook_group_id, "cook group", groups)
        yield from _cap_faults(person, where)


def reserved_id(where: Path) -> ProblemFault:
    """An id that plans use for something else."""
    return ProblemFault(
        where,
        "reserved_id",
        f"The words {listed(sorted(RESERVED_IDS))} name sacks and sleds in a plan.",
    )


def _cap_faults(person: Person, where: Path) -> Iterator[ProblemFault]:
    caps = person.caps
    yield from below((*where, "caps", "pack_g"), caps.pack_g, 1, "A pack cap", "g")
    yield from below((*where, "caps", "sled_g"), caps.sled_g, 0, "A sled cap", "g")
    if caps.total_g is not None:
        yield from below((*where, "caps", "total_g"), caps.total_g, 1, "A total cap", "g")
    for index, (_, _, cap_g) in enumerate(caps.pack_by_leg):
        yield from below((*where, "caps", "pack_by_leg", index), cap_g, 1, "A pack cap", "g")
    named = Counter((mode, direction) for mode, direction, _ in caps.pack_by_leg)
    if any(count > 1 for count in named.values()):
        yield ProblemFault(
            (*where, "caps", "pack_by_leg"),
            "duplicate_id",
            "One leg mode and direction has two pack caps. Name each once.",
        )
    yield from below((*where, "pack_volume_ml"), person.pack_volume_ml, 1, "A pack volume", "mL")
    yield from below((*where, "water_g"), person.water_g, 0, "The water carried", "g")
    yield from below((*where, "first_lunch_g"), person.first_lunch_g, 0, "The first lunch", "g")
    for field, least, what in (
        ("body_mass_g", 1, "A body mass"),
        ("load_limit_g", 0, "A load limit"),
        ("summit_water_g", 0, "The water carried"),
        ("flying_mass_g", 1, "The mass as weighed for flying"),
    ):
        given = getattr(person, field)
        if given is not None:
            yield from below((*where, field), given, least, what, "g")


def _hauler_faults(
    where: Path, hauler_id: str, people: dict[str, Person], hauled: dict[str, str]
) -> Iterator[ProblemFault]:
    """A hauler whom nobody knows, who hauls nothing, or who hauls another sled already."""
    hauler = people.get(hauler_id)
    if hauler is None:
        yield unknown_id(where, hauler_id, "person", people)
    elif hauler.caps.sled_g <= 0:
        yield ProblemFault(
            where,
            "no_sled_cap",
            f"{hauler_id} has no sled cap. Give the person a sled cap, or the sled another hauler.",
        )
    if hauler_id in hauled:
        yield ProblemFault(
            where,
            "hauls_two_sleds",
            f"{hauler_id} hauls {hauled[hauler_id]} already. Each sled needs its own hauler.",
        )


def sled_faults(problem: Problem) -> Iterator[ProblemFault]:
    """Haulers that nobody knows, who haul two sleds or none, and sleds that hold nothing."""
    ids = [sled.sled_id for sled in problem.sleds]
    yield from duplicate_ids(("sleds",), "sled_id", ids, "sled")
    people = {person.person_id: person for person in problem.everybody}
    hauled: dict[str, str] = {}
    for index, sled in enumerate(problem.sleds):
        where: Path = ("sleds", index)
        for field, (hauler_id, _) in zip(
            ("hauler_id", "second_hauler_id"), sled.shares(), strict=False
        ):
            yield from _hauler_faults((*where, field), hauler_id, people, hauled)
            hauled.setdefault(hauler_id, sled.sled_id)
        if sled.second_hauler_id is not None:
            share = (*where, "second_share_percent")
            yield from below(share, sled.second_share_percent, 1, "A share", "%")
            yield from below(share, 100 - sled.second_share_percent, 1, "The other share", "%")
        yield from below((*where, "tare_g"), sled.tare_g, 0, "A sled's tare", "g")
        yield from below((*where, "volume_ml"), sled.volume_ml, 1, "A sled's volume", "mL")
        if sled.mass_limit_g <= sled.tare_g:
            yield ProblemFault(
                (*where, "mass_limit_g"),
                "too_small",
                "The mass limit is gross and must be more than the sled's tare.",
            )
