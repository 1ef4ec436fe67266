"""Rules of waste: what people leave comes down, and there is room for it."""

from __future__ import annotations

from solver.rulebook.kinds import Rule, RuleKind, Setting, SourceStatus

_HARD, _ADVISORY = RuleKind.HARD, RuleKind.ADVISORY
_PRACTICE, _READ = SourceStatus.PRACTICE, SourceStatus.READ

WASTE: tuple[Rule, ...] = (
    Rule(
        "human_waste_carried_out",
        "Everybody's human waste is planned to come down with its liner, unless the land manager "
        "lets it stay.",
        "g",
        _HARD,
        _READ,
        "150 g per person and night",
        (Setting("least_human_waste_g", 150, "g", 0, 1000),),
        on_glaciers=True,
    ),
    Rule(
        "human_waste_containers_enough",
        "Waste containers whose capacity is given hold all human waste of the current stays, "
        "until it goes into sealed sacks.",
        "mL",
        _HARD,
        _READ,
        "0.7 L per person and night, 12 uses for 7 L",
        (Setting("human_waste_l_per_person_night", 0.7, "L", 0.05, 2.0, whole=False),),
        on_glaciers=True,
    ),
    Rule(
        "human_waste_container_listed",
        "Where human waste comes down, the gear lists a container for it with its capacity.",
        "containers",
        _ADVISORY,
        _PRACTICE,
        on_glaciers=True,
    ),
)
