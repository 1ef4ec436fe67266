"""Rules of clothing and sleeping kit: what each person has each night, each day and in the cold."""

from __future__ import annotations

from solver.rulebook.kinds import Rule, RuleKind, Setting, SourceStatus


def _rule(
    rule_id: str,
    unit: str,
    sentence: str,
    default: str = "",
    *settings: Setting,
    kind: RuleKind = RuleKind.HARD,
) -> Rule:
    return Rule(
        rule_id,
        sentence,
        unit,
        kind,
        SourceStatus.PRACTICE,
        default or None,
        settings,
        on_glaciers=True,
    )


CLOTHING: tuple[Rule, ...] = (
    _rule(
        "nightly_kit_complete",
        "units",
        "Everybody whose clothing is given has a sleeping bag, a pad and a dry layer each night, "
        "and shell clothing, a warm jacket, mitts and eye protection on each travel day.",
    ),
    _rule(
        "clothing_not_given",
        "people",
        "Everybody's clothing and sleeping kit is listed with its purpose.",
        kind=RuleKind.ADVISORY,
    ),
    _rule(
        "cold_clothing_in_place",
        "units",
        "Clothing that is needed below a certain temperature is with its owner on each trip to or "
        "from a colder place, and each night there.",
    ),
    _rule(
        "cold_clothing_listed",
        "units",
        "Everybody whose clothing is given and who goes where nights are very cold has cold "
        "clothing, such as overboots or insulated trousers.",
        "below -22 °C",
        Setting("overboots_below_c", -22, "°C", -60, 0, whole=False),
    ),
    _rule(
        "spare_mitts_carried",
        "units",
        "Each rope team carries this many pairs of spare mitts on every trip.",
        "1 pair",
        Setting("spare_mitts_pairs", 1, "pairs", 0, 4),
    ),
    _rule(
        "night_temperature_given",
        "places",
        "The request gives the temperature of a typical night for every camp.",
        kind=RuleKind.ADVISORY,
    ),
)
