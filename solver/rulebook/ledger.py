"""Rules of the ledger and of the loads: what must hold of every plan, on every mountain."""

from __future__ import annotations

from solver.rulebook.kinds import DECISION, Rule, RuleKind, SourceStatus

_LEDGER = "without it the ledger does not balance"
_NEED = "the need belongs to the item: change it in the request instead"
_CAP = "a cap belongs to a person or a sled: raise it in the request instead"


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
        "At every moment each unit is in exactly one place: at a place of the route, in one pack, "
        "on one sled, used up, or not yet made. A unit leaves a place only if it is there.",
        firm=_LEDGER,
    ),
    _hard(
        "units_ride_with_people",
        "units",
        _DERIVED,
        "Every load on a trip is carried by a member of its party, in the pack or on the sled "
        "that the person hauls.",
        firm=_LEDGER,
    ),
    _hard(
        "night_sets_held",
        "night sets",
        _DERIVED,
        "Each night, the place where a cook group sleeps holds one night set for each of its "
        "members.",
        firm=_LEDGER,
    ),
    _hard(
        "fuel_held",
        "containers",
        _DERIVED,
        "Each night, the fuel containers that a cook group opens are where it sleeps, and so is "
        "the container that it has already open.",
        firm=_LEDGER,
    ),
    _hard(
        "reserves_held",
        "nights",
        _PRACTICE,
        "Each reserve is complete at its place, unused and unopened, for as long as it must be "
        "held.",
        instead=(
            "take more food, fuel or containers",
            f"{DECISION} hold a reserve of fewer nights, if the land manager and the pilot agree",
        ),
    ),
    _hard(
        "nightly_items_held",
        "units",
        _PRACTICE,
        "Each night, items that are needed every night are where the people who need them sleep.",
    ),
    _hard(
        "items_in_place",
        "units",
        _DERIVED,
        "An item that belongs at a place is there from the time its people first need it until "
        "they leave.",
    ),
    _hard(
        "goes_no_further",
        "units",
        _DERIVED,
        "Nothing is taken beyond the place that it goes up to.",
        firm=_NEED,
    ),
    _hard(
        "party_kit_carried",
        "units",
        _PRACTICE,
        "Items that every party needs on the move are carried on each of its trips, outbound and "
        "homeward.",
        firm=_NEED,
    ),
    _hard(
        "day_kit_carried",
        "units",
        _PRACTICE,
        "Items that a person needs on every trip are in that person's pack on every trip. Sleeping "
        "kit may be in a pack of the rope team if the person's kit may go to it.",
        firm=_NEED,
    ),
    _hard(
        "owner_carries",
        "units",
        _PRACTICE,
        "Personal items are in their owner's pack or on the sled that the owner hauls, or with the "
        "rope team if the owner's kit may go to it.",
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
        "What is in a pack takes at most the pack's volume plus what may be lashed outside.",
        "10 % outside",
    ),
    _hard(
        "sled_only_on_sled_legs",
        "units",
        _READ,
        "Sleds are hauled only on sled legs, only by their hauler, and only from where they are.",
        firm=_LEDGER,
    ),
    _hard(
        "sled_cap_held",
        "g",
        _PRACTICE,
        "A sled's gross mass, or each hauler's share of it, is at most the hauler's sled cap "
        "times the leg's sled factor.",
        firm=_CAP,
    ),
    _hard(
        "sled_limit_held",
        "g",
        _PRACTICE,
        "A sled's gross mass is at most the sled's own limit times the leg's sled factor.",
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
        SourceStatus.PRINCIPLE,
        "Pack and sled together are at most the hauler's total cap. For a sled with two haulers, "
        "each hauler counts their share of the sled's limit.",
    ),
    _hard(
        "kinds_kept_apart",
        "units",
        _READ,
        "When a trip carries two or more units of a kind that must not be lost together, they are "
        "never all in one pack or on one sled.",
    ),
    _hard(
        "fuel_spread",
        "containers",
        _PRACTICE,
        "On a trip, no pack or sled carries more than half of a cook group's fuel containers, "
        "rounded up. The same holds for the shared fuel in the gear.",
        "one half",
    ),
    _hard(
        "everything_returns",
        "units",
        _READ,
        "At the end, everything that was not used up is back where the expedition began.",
        firm=_LEDGER,
    ),
)
