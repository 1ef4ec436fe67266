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
    NotARule(
        "Everybody of a party has water, food and a warm layer along.",
        "Held by structure: every load counts its carrier's water and travel lunch on every trip. "
        "The warm layer is asked for by `nightly_kit_complete`.",
    ),
    NotARule(
        "Two people alone need the leader's written consent, on legs of low hazard only.",
        "The hazard of a leg is the leader's word, and `party_big_enough` reads it. For any other "
        "leg the leader states that rule as a caution with a reason, which the answer repeats.",
    ),
    NotARule(
        "Personal things go ahead only if nobody needs them before that place is reached, and "
        "summit clothing only where it is fetched before the summit day.",
        "Held by other rules: `items_in_place` has them there before the first night or trip that "
        "needs them, `nightly_kit_complete` and `cold_clothing_in_place` keep the rest at hand.",
    ),
    NotARule(
        "What somebody ill cannot carry is shared out anew, or cached with a label.",
        "Work on the spot: `evacuation_load_fits` reckons with little on the one who is ill, and a "
        "request with a load limit and `kit_to_rope_team` plans the way down anew.",
    ),
    NotARule(
        "What medication and injectors hold, and who may give it.",
        "For the physician to decide. `medication_on_person`, `injector_doubled` and "
        "`injector_listed` see to it that what was decided is in reach.",
    ),
    NotARule(
        "Each person has the travel lunch of the day in the own pack, and its weight counts.",
        "Held by structure: every load counts its carrier's lunch on every trip of the day. What "
        "the lunch is made of is asked by `lunch_needs_no_cooking` and `summit_day_fed`.",
    ),
    NotARule(
        "Where nobody said at which cold food spoils or bursts, a few degrees of frost are taken.",
        "Nothing is guessed of food that the request does not describe: `food_stands_frost` judges "
        "what says its limit, and a limit of its own can be told of each set and item.",
    ),
    NotARule(
        "Where somebody reacts severely, pots are not shared and the food is packed apart.",
        "Each cook group has a kitchen of its own by `kitchen_for_each_group`, and "
        "`severe_allergens_apart` keeps the bags apart on the way. What is severe the person and a "
        "physician settle.",
    ),
    NotARule(
        "A cook group with a diet has its own pot, and nobody else eats from its bags.",
        "Held by structure: every bag belongs to one cook group and feeds only that group, and "
        "`kitchen_for_each_group` asks for a pot for each.",
    ),
    NotARule(
        "After a change of ropes or people each cook group still has stove, pot, fuel and food.",
        "A cook group keeps its people for the whole trip. `night_sets_held`, `fuel_held` and "
        "`kitchen_for_each_group` are asked of every night; a changed roster is a new request.",
    ),
    NotARule(
        "Fuel is in no bag with food, and human waste in no bag with either.",
        "Held by structure: a bag holds night sets of one kind, a container fuel, and a sack trash "
        "or human waste; no unit of a plan mixes them. How sleds are stowed `fuel_stowed_rear` "
        "tells.",
    ),
    NotARule(
        "Empty containers weigh on the way down and are counted.",
        "Held by structure: an emptied container is a unit with its own mass, and "
        "`everything_returns` brings every one of them back.",
    ),
    NotARule(
        "Fuel held in reserve is in containers that nobody has opened.",
        "Held by `reserves_held`, which counts unopened containers only.",
    ),
    NotARule(
        "All packaging of what was eaten comes down.",
        "Held by structure: what a night set says of its packaging becomes sacks of trash at the "
        "end of each stay, and `everything_returns` brings every sack back.",
    ),
    NotARule(
        "Full liners go into sealed sacks, never loose, until they are emptied or flown out.",
        "Held by structure: at the end of each stay all human waste is in sacks of the size that "
        "the request tells. Until then `waste_containers_enough` asks for room.",
    ),
    NotARule(
        "The flask of summit day is filled hot.",
        "Work on the spot. `summit_day_fed` asks for the water, and loads count it.",
    ),
    NotARule(
        "Fuel ordered for the start place matches the plan.",
        "Held by structure: every container of the plan stands at the start place on day 0, and "
        "`everything_flies_once` counts what flies against it; the list of them is the order.",
    ),
    NotARule(
        "Soft, small bags go into an aircraft better than rigid boxes.",
        "A choice when buying and packing. Volume and the longest thing of each flight are asked "
        "by `flight_volume_held` and `flight_length_held`.",
    ),
    NotARule(
        "After the largest load, the mean square of loads and the number of heavy days in a row "
        "are as small as can be.",
        "Goals, not limits: after the peak come the sum of the trips' largest loads, less mass "
        "carried uphill and preferences kept, `heaviest_days_limited` among them.",
    ),
    NotARule(
        "Each sled has one hauler, or two with a share given for each.",
        "Held by structure: a sled of a request names its hauler, or two of them with a share. "
        "`sled_cap_held` and `total_cap_held` count by the shares.",
    ),
    NotARule(
        "People without a sled carry up to their total cap in the pack, and packs of those who "
        "haul are made light first.",
        "Held by structure: a pack has its own cap, and the goals bring everybody's load down as a "
        "share of the own caps, whether in a pack or on a sled.",
    ),
    NotARule(
        "Things are never split.",
        "Held by structure: items, bags, containers and sacks are whole units in every load.",
    ),
    NotARule(
        "The largest thing fits somebody's pack or sled.",
        "Held by `pack_volume_held` and `sled_volume_held`: without a load that has the room there "
        "is no plan, and the answer says where it lacks.",
    ),
    NotARule(
        "Loads are listed as whole bags with their names, gross mass and volume.",
        "Held by structure: a plan names every unit of every load with its count, mass and "
        "volume, and its views print them.",
    ),
)
