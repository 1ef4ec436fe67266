"""Rules of loads that go beyond the caps: somebody spared, severe allergens, pins."""

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
        "Nobody who eats from the kitchen of a person who reacts severely carries food with that "
        "allergen. Only the people who must not carry that allergen may carry the kitchen's own "
        "food. Each kitchen packs its own trash, and none of these people carries trash of food "
        "with the allergen.",
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
    Rule(
        "pins_kept",
        "On the trip of each pin, at least as many units as it asks for ride in that pack or on "
        "that sled.",
        "units",
        RuleKind.HARD,
        SourceStatus.DERIVED,
        firm="a pin is a wish of the request: leave it out instead",
        instead=("leave the pin out, or pin fewer units",),
    ),
)
