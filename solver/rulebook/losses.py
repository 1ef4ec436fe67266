"""Rules of loss: no one pack or sled has in it what everybody depends on."""

from __future__ import annotations

from solver.rulebook.kinds import DECISION, Rule, RuleKind, Setting, SourceStatus


def _hard(
    rule_id: str,
    unit: str,
    source: SourceStatus,
    sentence: str,
    default: str | None = None,
    *settings: Setting,
    instead: tuple[str, ...] = (),
) -> Rule:
    return Rule(
        rule_id,
        sentence,
        unit,
        RuleKind.HARD,
        source,
        default,
        settings,
        on_glaciers=True,
        instead=instead,
    )


_READ, _PRACTICE = SourceStatus.READ, SourceStatus.PRACTICE

LOSSES: tuple[Rule, ...] = (
    _hard(
        "stove_survives_loss",
        "units",
        _PRACTICE,
        "After any trip, if any one pack or sled of it is lost, a stove is left at the places "
        "that its party visits that day. Trips after the last night are excepted.",
        instead=("take one more stove",),
    ),
    _hard(
        "shelter_survives_loss",
        "places",
        _PRACTICE,
        "After any trip, if any one pack or sled of it is lost, the shelters left at the places "
        "that its party visits that day have room for everybody there.",
        instead=("take one more tent or shelter bag",),
    ),
    _hard(
        "communicator_survives_loss",
        "units",
        _READ,
        "After any trip, if any one pack or sled of it is lost, a communicator is left at the "
        "places that its party visits that day, or somebody there wears one.",
        instead=("take one more communicator",),
    ),
    _hard(
        "fuel_survives_loss",
        "mL",
        _PRACTICE,
        "After any trip, if any one pack or sled of it is lost, the fuel left at the places that "
        "its party visits that day lasts everybody there for this many hours, or to the end if "
        "that is sooner.",
        "72 hours",
        Setting("loss_fuel_hours", 72, "hours", 0, 240),
        instead=(
            "take one more fuel container",
            "take fuel in smaller containers, so that a lost one costs less",
        ),
    ),
    _hard(
        "food_survives_loss",
        "night sets",
        _PRACTICE,
        "After any trip, if any one pack or sled of it is lost, the night sets left at the places "
        "that its party visits that day last each cook group there for this many hours, or to "
        "the end if that is sooner.",
        "24 hours",
        Setting("loss_food_hours", 24, "hours", 0, 240),
        instead=(f"{DECISION} take one more bag of night sets as a reserve",),
    ),
    _hard(
        "stoves_kept_apart",
        "units",
        SourceStatus.PRINCIPLE,
        "On a trip, no pack or sled carries two stoves.",
        "1 stove",
    ),
    _hard(
        "pumps_kept_apart",
        "units",
        SourceStatus.PRINCIPLE,
        "When a trip carries two or more stove pumps, they are never all in one pack or on one "
        "sled.",
    ),
    _hard(
        "shelters_kept_apart",
        "units",
        _PRACTICE,
        "When a trip carries two or more shelters, whether tents or bivouac bags, they are never "
        "all in one pack or on one sled.",
    ),
    _hard(
        "communicators_kept_apart",
        "units",
        _READ,
        "When a trip carries two or more communicators, they are never all in one pack or on one "
        "sled.",
    ),
    _hard(
        "rescue_kit_in_two_packs",
        "units",
        _PRACTICE,
        "When a trip carries two or more pieces of crevasse rescue kit, they are never all in one "
        "pack or on one sled. The same applies to the pieces of each rope team that has two or "
        "more people on the trip.",
    ),
)
