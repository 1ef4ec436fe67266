"""Rules of loads that go beyond the caps: somebody spared, the first day, severe allergens."""

from __future__ import annotations

from solver.rulebook.kinds import Rule, RuleKind, Setting, SourceStatus

LOADS: tuple[Rule, ...] = (
    Rule(
        "load_limit_held",
        "Somebody weak or hurt carries at most what was set for them, pack and sled together.",
        "g",
        RuleKind.HARD,
        SourceStatus.PRACTICE,
        firm="the limit is the person's own: raise it in the request instead",
    ),
    Rule(
        "vital_kit_on_owner",
        "Of what somebody owns, rucksack, headlamp, gloves and mitts, eye protection, flask and "
        "medication ride with nobody else, and neither do the warm layers that the cold asks for: "
        "that of the leg's colder end, and of the night at the end of the day.",
        "units",
        RuleKind.HARD,
        SourceStatus.PRACTICE,
        "warm layers where it is below 0 °C, cold clothing where it is below what it is for",
        (Setting("warm_layers_below_c", 0, "°C", -40, 20, whole=False),),
        firm="what keeps a person alive stays on that person",
    ),
    Rule(
        "first_load_within_plan",
        "On the way out from the start nobody's pack, sled, or both together is above a share of "
        "its cap: what is over stays for a carry day.",
        "g",
        RuleKind.HARD,
        SourceStatus.PRACTICE,
        "95 %",
        (Setting("first_load_percent", 95, "%", 1, 100),),
        on_glaciers=True,
    ),
    Rule(
        "severe_allergens_apart",
        "Food with what somebody severely reacts to rides with nobody of their cook group, and "
        "that group's own food rides only with people so kept clean. Each cook group packs its own "
        "trash, and trash of such food rides with none of them either.",
        "bags",
        RuleKind.HARD,
        SourceStatus.PRACTICE,
    ),
    Rule(
        "team_kit_in_team",
        "Ropes, rescue kit and medical kit of a rope team ride with people of that team only, so "
        "that nobody has two teams' kits.",
        "units",
        RuleKind.HARD,
        SourceStatus.PRACTICE,
    ),
)
