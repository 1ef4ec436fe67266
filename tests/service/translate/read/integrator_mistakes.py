"""Mistakes that somebody makes who writes to this service for the first time, and what it says.

Each row: a name, what is changed in the example for three, and every fault with its pointer, its
code and the words that name the remedy. `DROP` takes a member out, `Renamed` gives it another name.
"""

from dataclasses import dataclass
from typing import Any

DROP = object()


@dataclass(frozen=True)
class Renamed:
    """The member under another name."""

    name: str


CAP = "/roster/0/pack_cap"

MISTAKES: list[tuple[str, dict[str, Any], list[tuple[str, str, str]]]] = [
    ("number", {CAP: 27}, [(CAP, "no_unit", '"25 kg"')]),
    ("number in a string", {CAP: "27"}, [(CAP, "no_unit", "needs a unit")]),
    ("decimal comma", {CAP: "27,5 kg"}, [(CAP, "not_a_quantity", "a decimal point")]),
    ("no space", {CAP: "27kg"}, [(CAP, "not_a_quantity", "one space")]),
    ("two spaces", {CAP: "27  kg"}, [(CAP, "not_a_quantity", "one space")]),
    ("long unit", {CAP: "27 kilograms"}, [(CAP, "not_a_quantity", "Write kg")]),
    ("capitals", {CAP: "27 KG"}, [(CAP, "not_a_quantity", "Write kg")]),
    ("pounds", {CAP: "60 lbs"}, [(CAP, "not_a_quantity", "Write lb")]),
    ("volume for a mass", {CAP: "27 L"}, [(CAP, "not_a_quantity", "g, kg, lb, oz")]),
    ("negative", {CAP: "-27 kg"}, [(CAP, "negative", "cannot be negative")]),
    ("null", {CAP: None}, [(CAP, "not_a_quantity", "a string")]),
    ("too much", {CAP: "27000 kg"}, [(CAP, "out_of_range", "Check number and unit")]),
    ("not given", {CAP: DROP}, [("/roster/0", "missing", "pack_cap")]),
    (
        "thousands",
        {"/route/places/1/elevation": "1,850 m"},
        [("/route/places/1/elevation", "not_a_quantity", "no commas between thousands")],
    ),
    (
        "degrees",
        {"/route/places/0/night": "-3 °C"},
        [("/route/places/0/night", "not_a_quantity", "Write degC")],
    ),
    (
        "hours",
        {"/route/legs/0/hours_outbound": "4.5 hours"},
        [("/route/legs/0/hours_outbound", "not_a_quantity", "Write h ")],
    ),
    (
        "day first",
        {"/start_date": "20.05.2027"},
        [("/start_date", "not_a_date", "year comes first")],
    ),
    ("month first", {"/start_date": "05/20/2027"}, [("/start_date", "not_a_date", "2027-05-20")]),
    (
        "date with time",
        {"/start_date": "2027-05-20T00:00:00Z"},
        [("/start_date", "not_a_date", "Leave out the time")],
    ),
    ("no such day", {"/start_date": "2027-02-30"}, [("/start_date", "not_a_date", "no such day")]),
    (
        "one digit of an hour",
        {"/calendar/10/start": "6:30"},
        [("/calendar/10/start", "not_a_time", "two digits")],
    ),
    (
        "afternoon",
        {"/calendar/10/turn_round": "2:30 pm"},
        [("/calendar/10/turn_round", "not_a_time", "00 to 23")],
    ),
    (
        "camel case",
        {CAP: Renamed("packCap")},
        [("/roster/0/packCap", "unknown_field", "Did you mean pack_cap?")],
    ),
    (
        "camel case and no unit",
        {CAP: 27, "/start_date": Renamed("startDate"), "/roster/1/pack_cap": Renamed("packcap")},
        [
            (CAP, "no_unit", '"25 kg"'),
            ("/roster/1/packcap", "unknown_field", "Did you mean pack_cap?"),
            ("/startDate", "unknown_field", "Did you mean start_date?"),
        ],
    ),
    (
        "plain id",
        {"/roster/0/person_id": Renamed("id")},
        [("/roster/0/id", "unknown_field", "Did you mean person_id?")],
    ),
    (
        "another optional field",
        {"/roster/0/packcaps": {}},
        [("/roster/0/packcaps", "unknown_field", "Did you mean pack_caps?")],
    ),
    (
        "option misspelt",
        {"/options": {"timelimit": "5 s"}},
        [("/options/timelimit", "unknown_field", "Did you mean time_limit?")],
    ),
    (
        "place misspelt in the calendar",
        {"/calendar/1/2": "camp1"},
        [("/calendar/1/2", "unknown_id", "Did you mean camp-1?")],
    ),
    (
        "place misspelt in a leg",
        {"/route/legs/0/to": "Cache-1"},
        [("/route/legs/0/to", "unknown_id", "Did you mean cache-1?")],
    ),
    (
        "kit misspelt",
        {"/roster/0/personal_kit": "mian"},
        [("/roster/0/personal_kit", "unknown_id", "Did you mean main?")],
    ),
    (
        "place of an item misspelt",
        {"/gear/0/up_to": "kamp-2"},
        [("/gear/0/up_to", "unknown_id", "Did you mean camp-2")],
    ),
    (
        "hauler misspelt",
        {"/sleds/0/hauler": "leadr"},
        [("/sleds/0/hauler", "unknown_id", "Did you mean leader?")],
    ),
    (
        "rule misspelt",
        {"/rules": {"off": ["fuel_apart_from_foods"]}},
        [("/rules/off/0", "unknown_id", "fuel_apart_from_food,")],
    ),
    (
        "waiver without reason",
        {"/rules": {"waivers": [{"rule_id": "fuel_spread"}]}},
        [("/rules/waivers/0", "missing", "reason")],
    ),
    (
        "jump",
        {"/calendar/2": ["camp-2", "cache-1", "camp-1"]},
        [("/calendar/2/0", "teleports", "Begin it where people slept")],
    ),
    (
        "place left out",
        {"/calendar/1": ["road", "camp-1"]},
        [("/calendar/1/1", "no_leg", "road, cache-1, camp-1")],
    ),
    (
        "night at a cache",
        {"/calendar/1": ["road", "cache-1"]},
        [("/calendar/1/1", "no_sleeping_here", "End the day at a camp")],
    ),
    (
        "not back",
        {"/calendar/12": ["camp-2", "cache-2", "camp-1"]},
        [("/calendar/12/2", "not_back_at_start", "must end at road")],
    ),
    ("no days", {"/calendar": []}, [("/calendar", "too_few", "at least 1")]),
    (
        "days by number",
        {"/calendar": {"1": ["road"]}},
        [("/calendar", "wrong_type", "square brackets")],
    ),
    ("nobody", {"/roster": []}, [("/roster", "too_few", "at least 1")]),
    ("people by name", {"/roster/0": "leader"}, [("/roster/0", "wrong_type", "in braces")]),
    (
        "same person twice",
        {"/roster/1/person_id": "leader"},
        [("/roster/1/person_id", "duplicate_id", "its own id")],
    ),
    (
        "same place twice",
        {"/route/places/1/place_id": "road"},
        [("/route/places/1/place_id", "duplicate_id", "its own id")],
    ),
    ("mode", {"/route/legs/0/mode": "ski"}, [("/route/legs/0/mode", "not_a_choice", "'sled'")]),
    (
        "blank in an id",
        {"/roster/0/person_id": "the leader"},
        [("/roster/0/person_id", "bad_id", "letters, digits, dot, hyphen")],
    ),
    ("yes", {"/roster/0/guide": "yes"}, [("/roster/0/guide", "wrong_type", "true or false")]),
    ("count in quotes", {"/gear/0/count": "2"}, [("/gear/0/count", "not_a_number", "quotes")]),
    ("half a thing", {"/gear/0/count": 1.5}, [("/gear/0/count", "not_whole", "whole number")]),
    ("none of it", {"/gear/0/count": 0}, [("/gear/0/count", "too_small", "at least 1")]),
    (
        "no night set so low",
        {"/menu/night_sets/0/below_elevation": "1500 m"},
        [
            ("/menu/night_sets", "no_night_set", "at camp-1"),
            ("/menu/night_sets", "no_night_set", "at camp-2"),
        ],
    ),
    (
        "too few bags",
        {"/menu/night_sets/0/bags": 1},
        [("/menu/night_sets/0/bags", "too_few_bags", "leave the number out")],
    ),
    (
        "no reason for a limit",
        {"/roster/0/load_limit": "8 kg"},
        [("/roster/0", "missing", "load_limit_reason")],
    ),
    (
        "storm nights where nobody sleeps",
        {"/route/places/1/storm_nights": 1},
        [("/route/places/1/storm_nights", "nobody_sleeps_here", "Name a place where it sleeps")],
    ),
    (
        "title, unit, option and place at once",
        {
            "/title": 7,
            CAP: 27,
            "/options": {"time_limit": "5000 s"},
            "/calendar/1/2": "camp1",
            "/gear/0/up_to": "camp_2",
        },
        [
            ("/title", "wrong_type", "in quotes"),
            (CAP, "no_unit", '"25 kg"'),
            ("/calendar/1/2", "unknown_id", "Did you mean camp-1?"),
            ("/gear/0/up_to", "unknown_id", "Did you mean camp-2?"),
            ("/options/time_limit", "out_of_range", "between 1 and 3600 s"),
        ],
    ),
    (
        "an id, an amount and a jump at once",
        {
            "/roster/1/rope_team": "rope 1",
            "/gear/0/count": "1",
            "/calendar/2": ["camp-2", "cache-2", "camp-1"],
        },
        [
            ("/roster/1/rope_team", "bad_id", "letters, digits"),
            ("/gear/0/count", "not_a_number", "quotes"),
            ("/calendar/2/0", "teleports", "where people slept"),
        ],
    ),
    (
        "no calendar and a wrong hauler",
        {"/calendar": DROP, "/sleds/0/hauler": "leadr"},
        [("", "missing", "calendar"), ("/sleds/0/hauler", "unknown_id", "Did you mean leader?")],
    ),
]
