"""What each code of a fault means, and what to do: the cause and the remedy, in plain words.

The file is long because it is one table of all codes.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

FAULTS: Mapping[str, tuple[str, str]] = MappingProxyType(
    {
        "ambiguous_number": (
            "A number has a comma or a point that may divide thousands or begin the decimals.",
            "Write it without a sign for thousands, and with two decimals or with none.",
        ),
        "bad_encoding": (
            "The text of a CSV file is not UTF-8, or has NUL characters.",
            "Save the file as CSV UTF-8.",
        ),
        "bad_id": (
            "An id has characters that ids cannot have, or is too long.",
            "Use 1 to 64 letters, digits, dots, hyphens and underscores.",
        ),
        "bad_point": (
            "A point of a GPX file has no position, or one that is not on Earth.",
            "Correct or remove the point.",
        ),
        "bad_quotes": (
            "A quotation mark in a CSV file has no end, or stands in the middle of a cell.",
            "Save the file as CSV again.",
        ),
        "bad_xml": ("A part of the file is not XML.", "Save or export the file again."),
        "bags_not_whole": (
            (
                "The people at a place do not use up whole bags of night sets, and bags are opened "
                "whole."
            ),
            "Pack bags of as many sets as there are people, or of one set.",
        ),
        "band_upside_down": (
            "The highest camp of a night set lies below its lowest.",
            "Exchange the two elevations.",
        ),
        "cannot_be_off": (
            "A hard rule is to be switched off.",
            "Waive it with a reason if it is not firm. Only preferences and advisories can be off.",
        ),
        "cannot_be_waived": (
            "A waiver names a rule that is firm, or one that forbids no plan.",
            "Leave the waiver out. Name a preference or an advisory under `off`.",
        ),
        "cannot_follow": (
            "An item is to follow its people, but it must be with them or may not go ahead.",
            "Let it belong to a place and go ahead, or leave this out.",
        ),
        "cell_too_long": ("A cell of a CSV file is too long.", "Shorten the cell."),
        "closes_a_ring": (
            "A leg makes a second way between two places.",
            "Leave a leg out, so that there is one way from the start to each place.",
        ),
        "containers_of_guest": (
            "A cook group that eats from the kitchen of another has fuel containers.",
            "Give the containers to the group with the kitchen.",
        ),
        "contents_not_said": (
            "Somebody must avoid some food, and a night set does not say what it contains.",
            "Say what each night set contains. Write `[]` if it has nothing that anybody avoids.",
        ),
        "cook_group_apart": (
            "A cook group sleeps at two places on one night.",
            "Make a cook group for each place, or let the people sleep together.",
        ),
        "doctype": (
            "The file has a DOCTYPE, which files of this kind never have.",
            "Export the file again with another program.",
        ),
        "doubled": ("Two columns have the same meaning.", "Leave one of them out."),
        "doubled_id": ("Two rows have the same id.", "Give each row an id of its own."),
        "duplicate_id": (
            "Two entries of a list have the same id or name.",
            "Give each its own id, or leave one out.",
        ),
        "empty": ("A list that needs an entry has none.", "Write at least one entry."),
        "error_value": (
            "A cell has an error value, such as `#N/A`.",
            "Correct its formula, or write the value.",
        ),
        "field_of_a_part": (
            "The row of a part has a field that only whole items have.",
            "Write the field in the row of the item.",
        ),
        "flies_twice": (
            "A person is on two flights in one direction.",
            "Name each person on one fly-in and one fly-out.",
        ),
        "fuel_not_computed": (
            "The fuel of a night set was not given and cannot be worked out.",
            "Give the `fuel` of the night set, or the conditions that the detail names.",
        ),
        "fuel_worn": (
            "An item of fuel is said to be worn, but rules ask where fuel is.",
            "Let it be needed on every trip, every night or at a place.",
        ),
        "given_twice": (
            "A part of the request is given and taken from the library as well.",
            "Leave one of the two out.",
        ),
        "hauls_two_sleds": ("A person hauls two sleds.", "Give each sled its own hauler."),
        "impossible": (
            "A message lacks something, or says what cannot be so.",
            "Read the detail, and ask for the message again.",
        ),
        "in_doubt": (
            "A group of a message does not fit its check character.",
            "Ask for the message again. Do not guess the group.",
        ),
        "invalid": (
            "A value does not match the published schema.",
            "Compare the field with the description of the API.",
        ),
        "joins_itself": (
            "A leg leads from a place to itself.",
            "Name the place that it leads to.",
        ),
        "kitchen_elsewhere": (
            "People with a menu of their own sleep on some night where their kitchen is not.",
            "Put them into a cook group that sleeps where they sleep.",
        ),
        "legs_doubled": ("Two legs join the same two places.", "Leave one of the two out."),
        "less_than_content": (
            "A container holds less to the brim than what can be used of it.",
            "Correct the capacity or the content.",
        ),
        "missing": ("A field is required and missing.", "Give the field."),
        "missing_column": (
            "A file lacks a column that rows of this kind need.",
            "Add the column that the detail names.",
        ),
        "mixed_currencies": (
            "Prices are in more than one currency.",
            "Write all prices in one currency.",
        ),
        "mixed_decimal_signs": (
            "One file has decimal commas and decimal points.",
            "Use one of the two in the whole file.",
        ),
        "more_than_there_is": (
            "A count is larger than what the plan ever took there.",
            "Count again. Report what was found as found.",
        ),
        "negative": ("A quantity is below zero.", "Write zero or more."),
        "never_reached": (
            "An item is needed at a place that its people never reach.",
            "Name a place that they reach, or change the calendar.",
        ),
        "no_containers": (
            "A cook group burns fuel and has no fuel containers.",
            "List its containers.",
        ),
        "no_elevation": (
            "Points of a GPX file without a track have no elevation.",
            "Give the elevation of each point, or send the track.",
        ),
        "no_header": (
            "No row of a file names a column that is known.",
            "Write the names of the columns into the first row.",
        ),
        "no_leg": (
            "The calendar or a flight goes between two places that no leg joins.",
            "Add the leg, or name the places along the way.",
        ),
        "no_mass": ("The row of an item has no mass.", "Write the mass of one, or of its parts."),
        "no_moves_to_choose_by": (
            "The base calendar has no moves from which calendars can be made.",
            "Give a calendar on which all go together over one leg at a time.",
        ),
        "no_name": ("A row has neither a name nor an id.", "Write a name or an id."),
        "no_night_set": (
            "A cook group sleeps at a place for which no night set is known.",
            "Widen an elevation band, or name the set for the place.",
        ),
        "no_replan": (
            "A message asks for the answer of a plan that was made before the start.",
            "Ask for the answer of a re-plan.",
        ),
        "no_sled_cap": (
            "Somebody hauls a sled and has no sled cap.",
            "Give the person a sled cap, or the sled another hauler.",
        ),
        "no_sled_there": (
            "A pin names a sled on a trip on which the person hauls none.",
            "Name the pack, or another trip.",
        ),
        "no_sleeping_here": (
            "A day ends at a place where nobody can sleep.",
            "End the day at a camp, or change the kind of the place.",
        ),
        "no_such_day": (
            "A day is named that the expedition does not have.",
            "Name one of its days, or leave the day out.",
        ),
        "no_such_item": (
            "The row of a part names an item that no row has.",
            "Write the id of the item, or add its row.",
        ),
        "no_such_sheet": (
            "The workbook has no visible sheet of this name.",
            "Name a sheet that is there and visible.",
        ),
        "no_such_trip": (
            "A pin names a trip on which the person does not travel.",
            "Name a day and step on which they do.",
        ),
        "no_track": (
            "A GPX file has neither a track with elevations nor two waypoints.",
            "Export a track, or name at least two waypoints.",
        ),
        "no_trip": (
            "A report names a trip that the plan does not have on that day.",
            "Name a day, and a step if there are several, on which the person travels.",
        ),
        "no_trips": (
            "A plan that is named is not solved, so it has no trips.",
            "Name a solved plan.",
        ),
        "no_unit": (
            "A quantity has no unit.",
            'Write a number, a space and a unit, for example "25 kg".',
        ),
        "nobody_cooks": (
            "Everybody who eats from a kitchen has a menu of their own.",
            "Leave the menu out for some people.",
        ),
        "nobody_left": (
            "The request leaves everybody at home.",
            "Name fewer people under `without`.",
        ),
        "nobody_sleeps_here": (
            "A reserve is for a place where its cook group never sleeps.",
            "Name a place where it sleeps.",
        ),
        "not_a_choice": (
            "A value is none of those that the field takes.",
            "Write one of the values in the detail.",
        ),
        "not_a_date": ("A value is not a date.", "Write year, month and day, as in 2027-05-20."),
        "not_a_flag": ("A cell is neither yes nor no.", "Write yes or no."),
        "not_a_number": ("A value is not a number.", "Write a number in digits."),
        "not_a_price": (
            "A value is not a price.",
            "Write an amount and a currency, as in `12.50 EUR`.",
        ),
        "not_a_quantity": (
            "A value is not a number with a unit.",
            "Write a number, a space and a unit.",
        ),
        "not_a_time": ("A value is not a time of day.", "Write hours and minutes, as in 06:00."),
        "not_a_word": (
            "A value is not one of the words or short names that this field takes.",
            "Write what the detail asks for.",
        ),
        "not_a_workbook": (
            "The file is not a workbook, or is damaged.",
            "Save it as XLSX again.",
        ),
        "not_an_object": ("The body is not an object.", "Write an object, in braces."),
        "not_back_at_start": (
            "The last day does not end where the expedition began.",
            "End the last day at the start place: everything comes down.",
        ),
        "not_counts": (
            "A cell does not say how many stay at which place.",
            "Write place and count, for example `camp-1: 6; camp-2: 3`.",
        ),
        "not_gpx": ("The file is not GPX.", "Export the track as GPX."),
        "not_joined": (
            "No leg leads to a place.",
            "Add a leg that joins it with the route.",
        ),
        "not_on_one_line": (
            "An item is needed from one place up to another that does not lie beyond it.",
            "Exchange the two places, or leave one out.",
        ),
        "not_together": (
            "Two questions that exclude each other are asked at once.",
            "Ask for one of the two.",
        ),
        "not_whole": ("A number must be whole and is not.", "Write a whole number."),
        "null_character": (
            "A parameter of the address holds the character U+0000.",
            "Leave the character out.",
        ),
        "other_id": (
            "A named edit has two different ids for one sled.",
            "Write the same `sled_id` in both places.",
        ),
        "other_purpose": (
            "A field is only for items with another purpose.",
            "Give the item that purpose, or leave the field out.",
        ),
        "out_of_range": (
            "A value is outside what the field takes.",
            "Check the number and the unit. The detail names both ends.",
        ),
        "parts_differ_from_whole": (
            "The parts of an item do not weigh what the item weighs.",
            "Correct one of them, or leave out the mass of the item.",
        ),
        "parts_exceed_whole": (
            "Parts of a night set are more than the set.",
            "Give the gross mass and the whole energy of the set.",
        ),
        "people_apart": (
            "An item must be with everybody, but on some day people are apart.",
            "List the item once for each rope team.",
        ),
        "people_of_reserve": (
            "A reserve for an evacuation does not say for how many people, or another kind does.",
            "Say it for an evacuation, and for no other kind.",
        ),
        "pins_fix_the_calendar": (
            "A question about calendars has a request with pins, which belong to one calendar.",
            "Leave the pins out.",
        ),
        "place_repeated": (
            "A place follows itself on a day.",
            "Name a place once for each time that people come to it.",
        ),
        "places_or_teams": (
            "A day has places for all and places of rope teams.",
            "Name either `places` or `teams`.",
        ),
        "points_inward": (
            "A leg is written towards the start place.",
            "Write it in the direction away from the start.",
        ),
        "repeated_parameter": (
            "A parameter of the query, or a header that has one value, is given more than once.",
            "Give it once.",
        ),
        "reserved_id": (
            "An id is a word that plans use for sacks and sleds.",
            "Choose another id.",
        ),
        "rope_team_missing": (
            "A day does not say where a rope team is.",
            "Give every rope team its places. One place alone is a day without travel.",
        ),
        "rope_team_twice": ("A day has a rope team twice.", "Leave one of the two out."),
        "several_night_sets": (
            "More than one night set fits a place.",
            "Change the elevation bands so that one fits, or name the set for the place.",
        ),
        "several_sheets": (
            "More than one sheet of a workbook may be meant.",
            "Name the sheet.",
        ),
        "shares_do_not_add_up": (
            "The shares of a gas blend are not 100 % together.",
            "Correct the shares of propane, isobutane and n-butane.",
        ),
        "sled_cannot_go": (
            "On a leg a sled may hold less than it weighs empty.",
            "Raise the factor of the leg, or make it a leg for packs.",
        ),
        "teleports": (
            "A day begins where nobody slept.",
            "Begin it where people slept, or write the way between.",
        ),
        "too_few": ("A list has too few entries.", "Give as many as the detail says."),
        "too_few_bags": (
            "Fewer bags are taken than are eaten or held in reserve.",
            "Take more, or leave the count out.",
        ),
        "too_few_containers": (
            "The containers that are given hold too little fuel.",
            "Take more or larger ones, or leave the count out.",
        ),
        "too_large": (
            "A number or a file is larger than what is taken.",
            "Write a smaller number, or split the file. The detail names the limit.",
        ),
        "too_long": ("A text is too long.", "Write at most as many characters as the detail says."),
        "too_many": ("A list has too many entries.", "Give at most as many as the detail says."),
        "too_many_left": (
            "More items are left on the way than there are.",
            "Raise the count, or leave fewer.",
        ),
        "too_short": (
            "A text is too short.",
            "Write at least as many characters as the detail says.",
        ),
        "too_small": ("A number is smaller than what is taken.", "Write a larger number."),
        "turns_round_too_soon": (
            "On some day people turn round no later than they start.",
            "Give both times of the same day.",
        ),
        "uncomputed_formula": (
            "A cell has a formula that was never computed.",
            "Open the file in a spreadsheet and save it, or write the value.",
        ),
        "unknown_field": (
            "There is no field of this name here.",
            "Correct the name. The detail says which field may be meant.",
        ),
        "unknown_id": (
            "An id is named that nothing defines.",
            "Correct the id, or define it. The detail says which ids are known.",
        ),
        "unknown_parameter": (
            "A query has a parameter that this address does not take.",
            "Leave it out, or correct its name.",
        ),
        "webhook_url_refused": (
            "The service may not call the address of a webhook.",
            "Give an address that the detail allows.",
        ),
        "webhooks_off": (
            "This service calls no webhooks.",
            "Leave `webhook_url` out and ask for the plan, or let the operator allow webhooks.",
        ),
        "wrong_kind": (
            "The text is an answer, which begins with A.",
            "Send a state, which begins with K.",
        ),
        "wrong_type": (
            "A value has the wrong type, such as a number instead of a list.",
            "Write what the detail names.",
        ),
        "wrong_unit": (
            "A unit is not known, or measures something else.",
            "Use one of the units in the detail.",
        ),
    }
)
"""By code: the cause, then the remedy."""
