"""Rules of loads that go beyond the caps: somebody spared, the first day, severe allergens."""

from __future__ import annotations

from solver.rulebook.kinds import Rule, RuleKind, Setting, SourceStatus

LOADS: tuple[Rule, ...] = (
    Rule(
        "load_limit_held",
        "Somebody weak or injured carries at most the load limit set for them, pack and sled "
        "together.",
        "g",
        RuleKind.HARD,
        SourceStatus.PRACTICE,
        firm="the limit belongs to the person: raise it in the request instead",
    ),
    Rule(
        "first_load_within_plan",
        "Outbound from the start, nobody's pack, sled, or both together is above this share of "
        "its cap. What is over stays for a carry on a later day.",
        "g",
        RuleKind.HARD,
        SourceStatus.PRACTICE,
        "95 %",
        (Setting("first_load_percent", 95, "%", 1, 100),),
        on_glaciers=True,
    ),
    Rule(
        "severe_allergens_apart",
        "Nobody in the cook group of a person who reacts severely carries food with that "
        "allergen. The group's own food is carried only by people who are kept clean of the "
        "allergen in this way.",
        "bags",
        RuleKind.HARD,
        SourceStatus.PRACTICE,
    ),
)
