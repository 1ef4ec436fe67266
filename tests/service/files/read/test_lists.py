"""Gear lists and rosters from files: what comes out, and every fault at once."""

import pytest

from api_schema.examples import SMALLEST_GEAR_LIST, SMALLEST_REQUEST, SMALLEST_ROSTER
from api_schema.plan_request import PlanRequest
from service.files.read.choose_sheet import choose_sheet
from service.files.read.gear_columns import GEAR as FORM
from service.files.read.gear_list import read_gear_list
from service.files.read.records import read_records
from service.files.read.roster import read_roster
from service.translation import TRANSLATION
from tests.service.files.books import book, codes_in

GEAR = (
    "Our list;;;;;\n"
    "Item;Weight (g);Qty;Needed;Owner;Colour\n"
    "Tent;3,9 kg;1;every night;;red\n"
    "Stove;480,5;2;;;\n"
    "Parka;950;;Every night;lead;\n"
    "TOTAL;9999;;;;\n"
).encode("utf-8-sig")


def test_a_gear_list_becomes_the_gear_of_a_request():
    """Items, kits by owner and the total come out; what was assumed is listed with its rows."""
    answer = read_gear_list(GEAR, "g.csv")
    assert answer.gear == [
        {"item_id": "tent", "name": "Tent", "mass": "3.9 kg", "count": 1, "needed": "every_night"},
        {
            "item_id": "stove",
            "name": "Stove",
            "mass": "480.5 g",
            "count": 2,
            "needed": "every_night",
        },
    ]
    assert [item["item_id"] for item in answer.personal_kits["lead"]] == ["parka"]
    assert answer.total_kg == 5.811
    rows = {assumption.what: assumption.rows for assumption in answer.assumed}
    assert rows["The item is needed every night where its people sleep."] == [4]
    assert rows["Rows that name a total are not read."] == [6]
    assert (answer.read.header_row, answer.read.columns_not_read) == (2, ["Colour"])


def test_parts_and_places_are_read():
    """A row with part_of is a part; left_at, in_use_on and purpose have the values of requests."""
    text = (
        "item_id,name,mass,needed,left_at,part_of,purpose,in_use_on\n"
        'wand,Wand,120 g,at_place,"camp-1: 6; camp-2: 3",,wand,pack\n'
        "tent,Tent,,every_night,,,Tent,\n"
        "poles,Poles,900 g,,,tent,,\n"
        "fly,Fly,3 kg,,,tent,,\n"
    )
    wand, tent = read_gear_list(text.encode(), "g.csv").gear
    assert wand["left_at"] == {"camp-1": 6, "camp-2": 3}
    assert wand["in_use_on"] == ["pack"]
    assert tent["purpose"] == "shelter"
    assert [part["part_id"] for part in tent["parts"]] == ["poles", "fly"]


def test_what_comes_out_is_a_request_in_order():
    """Gear, kits and roster, put into a request, are taken by the translation."""
    gear = read_gear_list(SMALLEST_GEAR_LIST.encode(), "g.csv")
    roster = read_roster(SMALLEST_ROSTER.encode(), "r.csv")
    request = {**SMALLEST_REQUEST, "gear": gear.gear, "roster": roster.roster}
    assert PlanRequest.model_validate(request)
    assert TRANSLATION.state_requirements(request, None).figures


def test_every_bad_cell_is_named_at_once():
    """Faults of the header, of cells and of rows come in one refusal, with file and sheet."""
    rows = [
        ["Item", "Mass", "Qty", "Needed", "Name"],
        ["Tent", "3.9 kg", 1, "always"],
        ["Stove", 480, "two", "sometimes"],
        ["", "1 kg"],
        ["Rope", "9 L"],
        ["Pot"],
        ["Pan", "2000 kg"],
        ["Lid", "0.001 mg", 0],
    ]
    assert codes_in(read_gear_list, book(("Gear", rows)), "g.xlsx") == [
        ("doubled", "E1"),
        ("no_unit", "B3"),
        ("not_a_number", "C3"),
        ("not_a_choice", "D3"),
        ("wrong_unit", "B5"),
        ("wrong_unit", "B8"),
        ("no_name", "4"),
        ("no_mass", "6"),
        ("out_of_range", "B7"),
    ]


def test_ids_that_are_there_twice_are_faults():
    """Two rows with one id are no count of two."""
    text = b"id,mass\nrope,3 kg\nrope,3 kg\n"
    assert codes_in(read_gear_list, text, "g.csv") == [("doubled_id", "3")]


def test_a_part_has_an_item_and_no_fields_of_one():
    """A part of nothing and a part with a count are faults of their rows."""
    text = b"id,mass,part of,qty\na,1 kg,none,\nb,1 kg,a,2\n"
    assert codes_in(read_gear_list, text, "g.csv") == [
        ("field_of_a_part", "3"),
        ("no_such_item", "2"),
    ]


def test_typical_masses_are_listed():
    """A row that says it was not weighed is taken and listed."""
    text = b"id,mass,weighed\nrope,3 kg,no\ntent,3 kg,yes\n"
    whats = {a.what: a.rows for a in read_gear_list(text, "g.csv").assumed}
    assert whats["The mass is typical, not weighed. Weigh the item."] == [2]


@pytest.mark.parametrize("text", [b"Item,Qty\nTent,1\n", b"Item;Mass\nTent;1,5 kg\nPot;1.5 kg\n"])
def test_what_concerns_the_whole_file_is_told_once(text):
    """A missing column and two decimal signs are faults of the file."""
    code, at = codes_in(read_gear_list, text, "g.csv")[0]
    assert (code, at) in (("missing_column", ""), ("mixed_decimal_signs", ""))


def test_a_roster_becomes_that_of_a_request():
    """Caps by leg mode, words and flags are read, with ids made from names."""
    text = (
        "Name,Pack cap (lb),Guide,Age,pack_cap_fixed_rope_outbound_kg,Allergies,Sex,Height (cm)\n"
        'Ada Lead,60,yes,34,24,"peanut; tree nut",f,170\n'
        "Bo,55,,,,,,\n"
    )
    ada, bo = read_roster(text.encode(), "r.csv").roster
    assert ada == {
        "person_id": "ada-lead",
        "name": "Ada Lead",
        "guide": True,
        "height": "170 cm",
        "age_years": 34,
        "sex": "female",
        "pack_cap": "60 lb",
        "pack_caps": {"fixed_rope_outbound": "24 kg"},
        "reacts_to": ["peanut", "tree nut"],
    }
    assert bo == {"person_id": "bo", "name": "Bo", "pack_cap": "55 lb"}


def test_faults_of_a_roster_are_named_at_their_cells():
    """A missing cap, an age out of range and an id that is there twice are named."""
    text = b"id,pack cap (kg),age\na,27,7\nb,,\na,20,\n,3,\n"
    assert codes_in(read_roster, text, "r.csv") == [
        ("too_small", "C2"),
        ("missing", "B3"),
        ("doubled_id", "4"),
        ("no_name", "5"),
    ]


def test_blank_rows_are_no_records():
    """Rows between the lines of a list are skipped, and numbers stay those of the file."""
    faults = []
    chosen = choose_sheet(b"id,mass\n\n,\na,1 kg\n", "g.csv", FORM, None, faults)
    assert [r.row for r in read_records(chosen.sheet, chosen.header, faults)] == [4]
