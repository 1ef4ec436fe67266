"""What guides hold to and that is no rule of its own here, with what serves it instead."""

from __future__ import annotations

from solver.rulebook.kinds import NotARule

NOT_RULES: tuple[NotARule, ...] = (
    NotARule(
        "What is open is used up before the next is opened, and nothing half used is cached.",
        "Held by the ledger: bags are opened whole, a container only when the one before it is "
        "empty, and `fuel_held` keeps the open one where its cook group sleeps.",
    ),
    NotARule(
        "No cache holds what people need every night, the only communicator or the last stove.",
        "Held by other rules: `nightly_items_held` and `day_kit_carried` keep personal things with "
        "their people, `communicator_at_camp` and `kitchen_for_each_group` the rest at the camp.",
    ),
    NotARule(
        "Cached food is in tough closed sacks, fuel in a hole of its own or at the far end, "
        "upright.",
        "How a hole is dug is work on the spot. The view of a plan's caches lists food and fuel "
        "apart, so that they can be buried apart.",
    ),
    NotARule(
        "Each cache has a bearing and a photograph, and its poles are set anew after snowfall.",
        "Work on the spot that no plan can hold. `cache_labelled` asks for the position fix, and "
        "`cache_pole_tall_enough` for what shows above the snow to come.",
    ),
    NotARule(
        "Each cache has a day on which it is fetched, and at the end all caches are empty.",
        "Held by structure: `everything_returns` leaves nothing behind, and the view of a plan's "
        "caches tells the day on which each is picked up.",
    ),
    NotARule(
        "A medical adviser may set another gain of sleeping height.",
        "A number to state: `sleeping_gain_m`, `sleeping_threshold_m` and `sleeping_rest_gain_m`, "
        "or a sleeping rule named in the conditions.",
    ),
)
