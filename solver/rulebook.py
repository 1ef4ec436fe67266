"""The rulebook: what each rule requires, in one sentence, with kind, default and source."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


class RuleKind(StrEnum):
    """What breaking a rule means: no plan, a cost, or a word of caution."""

    HARD = "hard"
    PREFERENCE = "preference"
    CAUTION = "caution"


class SourceStatus(StrEnum):
    """Where a rule's number comes from."""

    READ = "read in published guidance"
    PRACTICE = "common practice, no source"
    DERIVED = "follows by arithmetic"
    MEMORY = "from memory, unverified"


@dataclass(frozen=True, slots=True)
class Rule:
    """One rule; `sentence` can be tested, `default` is the number it uses where it has one."""

    rule_id: str
    sentence: str
    unit: str
    kind: RuleKind
    source: SourceStatus
    default: str | None = None


def _hard(rule_id: str, unit: str, source: SourceStatus, sentence: str, default: str = "") -> Rule:
    return Rule(rule_id, sentence, unit, RuleKind.HARD, source, default or None)


_DERIVED, _PRACTICE, _READ = SourceStatus.DERIVED, SourceStatus.PRACTICE, SourceStatus.READ

RULES: tuple[Rule, ...] = (
    _hard(
        "units_conserved",
        "units",
        _DERIVED,
        "At every moment every unit is in exactly one place: a store, one pack or sled, used, "
        "or not yet made; nothing leaves a place where it does not stand.",
    ),
    _hard(
        "units_ride_with_people",
        "units",
        _DERIVED,
        "Every load of a trip is on a member of its party, in the pack or on the sled hauled.",
    ),
    _hard(
        "night_sets_held",
        "night sets",
        _DERIVED,
        "Each night, the place where a cook group sleeps holds a night set for each of them.",
    ),
    _hard(
        "fuel_held",
        "containers",
        _DERIVED,
        "Each night, the containers that the cook group opens stand where it sleeps, and so "
        "does the one that it opened before.",
    ),
    _hard(
        "reserves_held",
        "nights",
        _PRACTICE,
        "Each reserve stands whole at its place, unused and unopened, while it must be held.",
    ),
    _hard(
        "nightly_items_held",
        "units",
        _PRACTICE,
        "Each night, what is needed every night is where its people sleep.",
    ),
    _hard(
        "items_in_place",
        "units",
        _DERIVED,
        "What belongs at a place is there from when its people first need it until they leave.",
    ),
    _hard(
        "party_kit_carried",
        "units",
        _PRACTICE,
        "What every party needs on the move rides on each of its trips, out and back.",
    ),
    _hard(
        "day_kit_carried",
        "units",
        _PRACTICE,
        "What a person needs on every trip is in that person's pack on every trip.",
    ),
    _hard(
        "owner_carries",
        "units",
        _PRACTICE,
        "Personal items ride in their owner's pack or on the sled that the owner hauls.",
    ),
    _hard(
        "pack_cap_held",
        "g",
        _PRACTICE,
        "A pack's gross mass is at most its carrier's cap for the leg's mode and direction.",
    ),
    _hard(
        "pack_volume_held",
        "mL",
        _PRACTICE,
        "What is in a pack takes at most its volume and what may be lashed outside.",
        "10 % outside",
    ),
    _hard(
        "sled_only_on_sled_legs",
        "units",
        _READ,
        "Sleds are hauled on sled legs only, by their hauler, from where they stand.",
    ),
    _hard(
        "sled_cap_held",
        "g",
        _PRACTICE,
        "A sled's gross mass is at most its hauler's sled cap times the leg's factor.",
    ),
    _hard(
        "sled_limit_held",
        "g",
        _PRACTICE,
        "A sled's gross mass is at most its own limit times the leg's factor.",
    ),
    _hard(
        "sled_volume_held",
        "mL",
        _PRACTICE,
        "What is on a sled takes at most the sled's volume.",
    ),
    _hard(
        "total_cap_held",
        "g",
        _READ,
        "Pack and sled together are at most the hauler's total cap.",
    ),
    _hard(
        "kinds_kept_apart",
        "units",
        _READ,
        "Of two or more units of a kind that must not be lost together, a trip never has all "
        "in one pack or on one sled.",
    ),
    _hard(
        "fuel_spread",
        "containers",
        _PRACTICE,
        "Of a cook group's fuel containers on a trip, no pack or sled has more than half, "
        "rounded up.",
        "one half",
    ),
    _hard(
        "everything_returns",
        "units",
        _READ,
        "At the end everything that was not used up is back where the trip began.",
    ),
)


def rule(rule_id: str) -> Rule:
    """The rule of that id; KeyError when there is none."""
    for candidate in RULES:
        if candidate.rule_id == rule_id:
            return candidate
    raise KeyError(rule_id)
