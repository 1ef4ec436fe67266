"""Rules of the ledger and of the loads: what must hold of every plan, on every mountain."""

from __future__ import annotations

from solver.rulebook.kinds import Rule, RuleKind, SourceStatus

_LEDGER = "without it the ledger does not add up"
_NEED = "the need is the item's own: give it another one in the request instead"
_CAP = "a cap is a person's or a sled's own: raise it in the request instead"


def _hard(
    rule_id: str,
    unit: str,
    source: SourceStatus,
    sentence: str,
    default: str = "",
    *,
    firm: str = "",
    instead: tuple[str, ...] = (),
) -> Rule:
    return Rule(
        rule_id,
        sentence,
        unit,
        RuleKind.HARD,
        source,
        default or None,
        firm=firm,
        instead=instead,
    )


_DERIVED, _PRACTICE, _READ = SourceStatus.DERIVED, SourceStatus.PRACTICE, SourceStatus.READ

LEDGER: tuple[Rule, ...] = (
    _hard(
        "units_conserved",
        "units",
        _DERIVED,
        "At every moment every unit is in exactly one place: a store, one pack or sled, used, "
        "or not yet made; nothing leaves a place where it does not stand.",
        firm=_LEDGER,
    ),
    _hard(
        "units_ride_with_people",
        "units",
        _DERIVED,
        "Every load of a trip is on a member of its party, in the pack or on the sled hauled.",
        firm=_LEDGER,
    ),
    _hard(
        "night_sets_held",
        "night sets",
        _DERIVED,
        "Each night, the place where a cook group sleeps holds a night set for each of them.",
        firm=_LEDGER,
    ),
    _hard(
        "fuel_held",
        "containers",
        _DERIVED,
        "Each night, the containers that the cook group opens stand where it sleeps, and so "
        "does the one that it opened before.",
        firm=_LEDGER,
    ),
    _hard(
        "reserves_held",
        "nights",
        _PRACTICE,
        "Each reserve stands whole at its place, unused and unopened, while it must be held.",
        instead=(
            "take more",
            "ask the land manager, the pilot or the guide for fewer nights",
        ),
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
        firm=_NEED,
    ),
    _hard(
        "day_kit_carried",
        "units",
        _PRACTICE,
        "What a person needs on every trip is in that person's pack on every trip.",
        firm=_NEED,
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
        firm=_CAP,
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
        firm=_LEDGER,
    ),
    _hard(
        "sled_cap_held",
        "g",
        _PRACTICE,
        "A sled's gross mass, or each hauler's share of it, is at most the hauler's sled cap times "
        "the leg's factor.",
        firm=_CAP,
    ),
    _hard(
        "sled_limit_held",
        "g",
        _PRACTICE,
        "A sled's gross mass is at most its own limit times the leg's factor.",
        firm=_CAP,
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
        "Pack and sled together are at most the hauler's total cap; of a shared sled its share of "
        "the sled's limit counts.",
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
        firm=_LEDGER,
    ),
)
