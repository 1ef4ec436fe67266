"""What guides hold to and that is no rule of its own here, with what serves it instead."""

from __future__ import annotations

from solver.rulebook.kinds import NotARule

NOT_RULES: tuple[NotARule, ...] = (
    NotARule(
        "An open bag or container is used up before the next one is opened. Nothing half used is "
        "cached.",
        "Built into the ledger: bags are opened whole. A container is opened only when the one "
        "before it is empty. `fuel_held` keeps the open container where its cook group sleeps.",
    ),
    NotARule(
        "No cache holds what people need every night, the only communicator or the last stove.",
        "Covered by other rules: `nightly_items_held` and `day_kit_carried` keep personal things "
        "with their people. `communicator_at_camp` and `kitchen_for_each_group` keep the rest at "
        "the camp.",
    ),
    NotARule(
        "Cached food is in tough closed sacks. Fuel is upright, in a hole of its own or at the "
        "far end.",
        "People decide on the spot how to dig. The list of a plan's caches shows food and fuel "
        "separately, so that they can be buried separately.",
    ),
    NotARule(
        "Each cache has a bearing and a photograph. Its poles are reset after snowfall.",
        "Work on the spot, which no plan contains. `cache_labelled` asks for the recorded "
        "position, and `cache_pole_tall_enough` asks for poles that still show after the expected "
        "snow.",
    ),
    NotARule(
        "Each cache has a pick-up day. At the end all caches are empty.",
        "Built in: `everything_returns` leaves nothing behind, and the list of a plan's caches "
        "gives the pick-up day of each.",
    ),
    NotARule(
        "A medical adviser may set another limit on the gain in sleeping elevation.",
        "The request can change the numbers `sleeping_gain_m`, `sleeping_threshold_m` and "
        "`sleeping_rest_gain_m`, or name a sleeping rule in the conditions.",
    ),
    NotARule(
        "Everybody in a party carries water, food and a warm layer.",
        "Built in: every load includes its carrier's water and travel lunch on every trip. "
        "`nightly_kit_complete` asks for the warm layer.",
    ),
    NotARule(
        "Two people travel alone only with the leader's written consent, and only on legs with "
        "low hazard.",
        "The leader says how large the hazard of a leg is, and `party_big_enough` uses that. For "
        "any other leg the leader can waive that rule with a reason, which the answer repeats.",
    ),
    NotARule(
        "Personal things go ahead only if nobody needs them before reaching that place. Summit "
        "clothing goes ahead only if it is fetched before the summit day.",
        "Covered by other rules: `items_in_place` has them there before the first night or trip "
        "that needs them. `nightly_kit_complete` and `cold_clothing_in_place` keep the rest "
        "within reach.",
    ),
    NotARule(
        "What an ill person cannot carry is shared among the others, or cached with a label.",
        "Work on the spot: `evacuation_load_fits` assumes that the ill person carries little. A "
        "new request with a load limit and `kit_to_rope_team` plans the way down again.",
    ),
    NotARule(
        "What medication and injectors contain, and who may give it.",
        "The physician decides. `medication_on_person`, `injector_doubled` and `injector_listed` "
        "keep within reach what was decided.",
    ),
    NotARule(
        "Each person carries the day's travel lunch in their own pack, and its mass counts.",
        "Built in: every load includes its carrier's lunch on every trip of the day. "
        "`lunch_needs_no_cooking` and `summit_day_fed` ask what the lunch is made of.",
    ),
    NotARule(
        "Where nobody says at what temperature food spoils or bursts, a few degrees of frost are "
        "assumed.",
        "Nothing is guessed about food that the request does not describe. `food_stands_frost` "
        "checks whatever has a limit, and the request can give one for each set and item.",
    ),
    NotARule(
        "Where somebody reacts severely, pots are not shared and the food is packed separately.",
        "`kitchen_for_each_group` gives each cook group a kitchen of its own, and "
        "`severe_allergens_apart` keeps the bags apart on trips. The person and a physician "
        "decide what is severe.",
    ),
    NotARule(
        "A cook group with a diet has its own pot, and nobody else eats from its bags.",
        "Built in: every bag belongs to one cook group, or to one menu in it, and feeds only those "
        "people. `kitchen_for_each_group` asks for a pot for each group. People with a menu of "
        "their own cook in its kitchen; only a severe allergy needs a cook group of its own.",
    ),
    NotARule(
        "After a change of rope teams or people, each cook group still has a stove, a pot, fuel "
        "and food.",
        "A cook group keeps its people for the whole expedition. `night_sets_held`, `fuel_held` "
        "and `kitchen_for_each_group` check every night. A changed roster is a new request.",
    ),
    NotARule(
        "Fuel is never in a bag with food. Human waste is never in a bag with either.",
        "Built in: a bag holds night sets of one kind, a container holds fuel, and a sack holds "
        "trash or human waste. No unit of a plan mixes them. `fuel_stowed_rear` says how to stow "
        "a sled.",
    ),
    NotARule(
        "Empty containers have mass on the way down and are counted.",
        "Built in: an empty container is a unit with its own mass, and `everything_returns` "
        "brings every one of them back.",
    ),
    NotARule(
        "Fuel held in reserve is in containers that nobody has opened.",
        "Covered by `reserves_held`, which counts unopened containers only.",
    ),
    NotARule(
        "The packaging of everything that was eaten comes down.",
        "Built in: the packaging of the night sets becomes sacks of trash at the end of each "
        "stay, and `everything_returns` brings every sack back.",
    ),
    NotARule(
        "Full liners go into sealed sacks, never loose, until they are emptied or flown out.",
        "Built in: at the end of each stay all human waste is in sacks of the size that the "
        "request gives. Until then `human_waste_containers_enough` asks for room.",
    ),
    NotARule(
        "The flask for the summit day is filled hot.",
        "Work on the spot. `summit_day_fed` asks for the water, and loads include it.",
    ),
    NotARule(
        "The fuel ordered for the start place matches the plan.",
        "Built in: every container of the plan is at the start place on day 0, and that list is "
        "the order. `everything_flies_once` compares it with what flies.",
    ),
    NotARule(
        "Small, soft bags fit into an aircraft better than rigid boxes.",
        "A choice when buying and packing. `flight_volume_held` and `flight_length_held` check "
        "the volume and the longest object of each flight.",
    ),
    NotARule(
        "After the largest load, the mean square of loads and the number of heavy days in a row "
        "are as small as possible.",
        "These are goals, not limits. After the peak load come the sum of the trips' largest "
        "loads, then mass times ascent, then the preferences, of which `heaviest_days_limited` is "
        "one.",
    ),
    NotARule(
        "Each sled has one hauler, or two haulers with a share for each.",
        "Built in: every sled of a request names its hauler, and may name a second hauler with a "
        "share. `sled_cap_held` and `total_cap_held` count each hauler's share. There may be "
        "fewer sleds than people.",
    ),
    NotARule(
        "People without a sled carry up to their total cap in the pack. The packs of people who "
        "haul are made light first.",
        "Built in: a pack has its own cap. The goals lower everybody's load as a share of that "
        "person's caps, whether it is in a pack or on a sled.",
    ),
    NotARule(
        "Things are never split.",
        "Built in: items, bags, containers and sacks are whole units in every load.",
    ),
    NotARule(
        "The largest object fits somebody's pack or sled.",
        "Covered by `pack_volume_held` and `sled_volume_held`. If no load has enough room there "
        "is no plan, and the answer says where room is missing.",
    ),
    NotARule(
        "Loads are listed as whole bags with their names, gross mass and volume.",
        "Built in: a plan names every unit of every load with its count, mass and volume, and the "
        "lists made from it show them.",
    ),
)
