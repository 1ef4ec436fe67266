"""The printed pages say what the plan says, safely, and in any browser.

The file is long because all its tests read the pages of one plan, which takes seconds to solve.
"""

import base64
import copy
import hashlib
import re

import pytest

from service.pages.assumptions import assumptions, cautions
from service.pages.blocks import BLANK, Table, table
from service.pages.camps import cache_pages, camp_pages, waiting
from service.pages.carriers import bag_index, descent, keepers, person_pages
from service.pages.cover import cover
from service.pages.day_pages import day_pages
from service.pages.drawings import drawings
from service.pages.facts import (
    PlanFacts,
    Writer,
    besides_own_kit,
    units_of,
    water_and_lunch,
)
from service.pages.own_kit import OWN_KIT, kit_along, kit_on_sled, on_every_trip
from service.pages.render import drawing_width
from service.pages.risks import flight_pages, losses
from service.pages.sections import sections_of
from service.reports.caches import caches_of
from service.reports.manifest import PILOT_DECIDES
from service.reports.paper.keepers import keepers_of
from tests.service.pages.conftest import REQUEST, facts_of


def tables_of(*sections) -> list[Table]:
    """All tables of sections."""
    return [b for section in sections for b in section.blocks if isinstance(b, Table)]


def words_of(*sections) -> str:
    """All words of the lines and tables of sections."""
    words = []
    for section in sections:
        for block in section.blocks:
            words += getattr(block, "lines", ())
            words += [cell for row in getattr(block, "rows", ()) for cell in row]
    return "\n".join(words)


def test_every_row_has_a_cell_for_each_column():
    """Blank columns are filled; signs in names of columns tell their kind."""
    made = table("x", ("@Who", "#kg", "~Date", "_Counted"), [("a", "1", "b")])
    assert [column.kind for column in made.columns] == ["who", "number", "short", "blank"]
    assert made.rows == (("a", "1", "b", BLANK),)


def test_the_cover_begins_with_cautions_few_and_short(facts):
    """At most eight sentences, each a caution of this plan; none of aircraft without a flight."""
    first = cover(facts).blocks[0].lines
    texts = " ".join(caution["text"] for caution in facts.outcome["cautions"])
    assert 3 <= len(first) <= 8
    assert all(line.removeprefix("! ").rstrip(".") in texts for line in first)
    assert not any("pilot" in line for line in first)
    assert "Superseded if" in words_of(cover(facts))


def test_the_cover_says_what_short_names_of_places_stand_for(solved):
    """Remarks name places by their ids; where a place has a name besides, it stands with the id."""
    request = copy.deepcopy(REQUEST)
    assert "Places:" not in words_of(cover(facts_of(solved, "metric", request)))
    place = request["route"]["places"][1]
    place["name"] = "Bend camp"
    said = words_of(cover(facts_of(solved, "metric", request)))
    assert f"Places: Bend camp ({place['place_id']})." in said


def test_every_load_of_the_plan_stands_on_its_day_and_with_its_person(facts):
    """The masses of all trips are the plan's, by day and by person."""
    loads = [load for trip in facts.plan["trips"] for load in trip["loads"]]
    expected = sorted(f"{load['pack_kg']:.1f}" for load in loads)
    by_day = [t for t in tables_of(*day_pages(facts)) if t.columns[-1].name == "Counted"]
    assert sorted(row[1] for t in by_day for row in t.rows) == expected
    by_person = [t for t in tables_of(*person_pages(facts)) if t.caption == "All trips"]
    assert sorted(row[2] for t in by_person for row in t.rows) == expected
    assert len(by_person) == len(facts.people)


def test_what_is_set_down_and_taken_up_is_what_differs_between_two_trips(facts):
    """On a day out and back, what stays at the turning point is set down there."""
    day = next(d for d in facts.plan["days"] if d["kind"] == "carry")
    made = next(s for s in day_pages(facts) if s.section_id == f"day-{day['day']}")
    (hands,) = [t for t in tables_of(made) if t.caption == "Set down and taken up on the way"]
    there, back = facts.trips_of(day["day"])[:2]
    place = facts.place(there["to"])
    assert {row[0] for row in hands.rows} == {place}
    for load in there["loads"]:
        after = next(one for one in back["loads"] if one["person_id"] == load["person_id"])
        kept = {unit["unit_id"] for unit in after["pack"] + after["sled"]}
        left = [u for u in load["pack"] + load["sled"] if u["unit_id"] not in kept]
        row = [r[2] for r in hands.rows if r[1] == f"{facts.person(load['person_id'])} sets down"]
        assert all((unit["name"] or unit["unit_id"]) in row[0] for unit in left)


def test_what_changes_hands_names_both_people_where_and_why(solved):
    """Of a pot that one carried and another takes up the sheet says from whom, to whom and why."""
    changed = copy.deepcopy(solved)
    trips = changed["plan"]["trips"]
    first, later = trips[0], next(t for t in trips if t["day"] > 1 and len(t["loads"]) > 1)
    pot = {"unit_id": "line", "name": "hand line", "count": 1, "each_kg": 0.5, "each_l": 1.0}
    changed["plan"]["units"].append(
        {"unit_id": "line", "label": "hand line", "kind": "gear", "purpose": None, "owner": None}
    )
    first["loads"][0]["pack"].append(pot)
    later["loads"][1]["pack"].append(pot)
    facts = facts_of(changed, "metric")
    giver, taker = first["loads"][0]["person_id"], later["loads"][1]["person_id"]
    sheet = next(s for s in day_pages(facts) if s.section_id == f"day-{later['day']}")
    (hands,) = [t for t in tables_of(sheet) if t.caption == "What changes hands"]
    (row,) = [row for row in hands.rows if row[4] == "hand line"]
    between = (facts.person(giver), facts.person(taker))
    assert row[:4] == (str(later["step"]), facts.place(later["from"]), *between)
    assert row[5] == f"day {first['day']}"
    assert len(row[6]) > 10


def test_water_and_lunch_stand_with_what_is_in_the_pack(facts):
    """All that a pack weighs is named on the sheet of the day and on that of the person."""
    load = facts.plan["trips"][0]["loads"][0]
    words = f"water {load['water_kg']:.1f} kg, lunch {load['lunch_kg']:.1f} kg"
    assert water_and_lunch(load, facts.write) == words
    assert words in tables_of(day_pages(facts)[0])[0].rows[0][4]
    assert words in tables_of(person_pages(facts)[0])[0].rows[0][5]


def test_of_the_own_kit_the_sheet_says_what_is_on_the_sled(facts):
    """The mass on the sled is named with the kit, and the things after what else is on the sled."""
    pad = {"unit_id": "lead/pad", "name": "pad", "count": 1, "each_kg": 0.6}
    boots = {"unit_id": "lead/boots", "name": "boots", "count": 1, "each_kg": 0.4}
    rope = {"unit_id": "lead/rope", "name": "rope", "count": 1, "each_kg": 0.0}
    load = {"pack": [boots], "sled": [pad, rope]}
    assert kit_along(facts, load, "lead").startswith("own kit (1.0 kg, 0.6 kg of it on the sled): ")
    assert kit_on_sled(load, "lead") == "pad"
    assert kit_on_sled({"pack": [pad], "sled": []}, "lead") == ""


def test_tonight_has_the_kitchen_of_the_plan(facts):
    """Each night's sets and fuel stand on the day's sheet, with water and waste."""
    made = [t for t in tables_of(*day_pages(facts)) if t.caption == "Tonight"]
    rows = [row for t in made for row in t.rows]
    used = facts.plan["used"]
    assert [row[3] for row in rows] == [f"{u['fuel_ml'] / 1000:.1f}" for u in used]
    assert all(float(row[4]) > 0 and float(row[5]) > 0 for row in rows)
    assert rows[0][1] == f"{used[0]['cook_group']}, {used[0]['people']} people"
    used[0]["people"], before = 1, used[0]["people"]
    alone = next(t for t in tables_of(*day_pages(facts)) if t.caption == "Tonight")
    used[0]["people"] = before
    assert alone.rows[0][1] == f"{used[0]['cook_group']}, 1 person"


def test_camps_have_their_stock_in_nights(facts):
    """Every night with a stock is a row, with the plan's nights of food; changes add up."""
    rows = [row for t in tables_of(*camp_pages(facts)) for row in t.rows]
    nights = [g for night in facts.plan["stock"] for g in night["cook_groups"]]
    listed = sorted(row[4] for row in rows if row[4] != "–")
    assert listed == sorted(f"{g['nights_of_food']:.1f}" for g in nights)


def test_keepers_and_bags_name_every_carrier(facts):
    """Shared items and bags are in one of the two lists, with whoever carries them by day."""
    shared, bags = tables_of(keepers(facts))[0].rows, tables_of(bag_index(facts))[0].rows
    assert any("tent" in row[0] for row in shared)
    assert any(row[0].startswith("all/") for row in bags)
    listed = {row[0] for row in bags}
    carried = {
        u["unit_id"] for t in facts.plan["trips"] for load in t["loads"] for u in units_of(load)
    }
    assert any(unit_id.startswith("human-waste/") for unit_id in carried)
    assert not any(name.startswith(("human-waste/", "trash/")) for name in listed)
    for trip in facts.plan["trips"]:
        for load in trip["loads"]:
            for unit in load["pack"] + load["sled"]:
                if unit["unit_id"].startswith("all/"):
                    (row,) = [r for r in bags if r[0] == unit["unit_id"]]
                    assert f"{trip['day']} {facts.person(load['person_id'])}" in row[3]
                    listed.discard(unit["unit_id"])
    assert not any(name.startswith("all/") for name in listed)


def test_the_descent_has_the_share_of_the_body(facts):
    """A pack homeward is shown as a share of the body mass that the request gives."""
    trip = next(t for t in facts.plan["trips"] if t["direction"] == "homeward")
    load = next(load for load in trip["loads"] if load["person_id"] == "lead")
    row = next(r for r in tables_of(descent(facts))[0].rows if r[2] == "lead")
    assert row[4] == f"{100 * load['pack_kg'] / 82:.0f} %"


def test_the_worst_carrier_has_most_food_and_fuel(facts):
    """No other load of the trip has more of it than the one that is named."""
    rows = tables_of(losses(facts))[0].rows
    assert rows
    for row in rows:
        day = [t for t in facts.plan["trips"] if str(t["day"]) == row[0] and facts.way(t) == row[1]]
        supplies = [
            sum(
                u["count"] * u["each_kg"]
                for u in load["pack"] + load["sled"]
                if u["unit_id"].startswith("all/")
            )
            for load in day[0]["loads"]
        ]
        assert row[3] == f"{max(supplies):.1f}"
    assert "third" in words_of(losses(facts))


def test_waiting_is_never_beyond_what_lasts(facts):
    """Nights beyond the reserve are those that last less the storm nights."""
    rows = tables_of(waiting(facts))[0].rows
    assert rows
    assert all(0 <= float(row[4]) <= float(row[3]) for row in rows)


def test_each_pole_of_a_cache_has_a_label(solved, facts):
    """There are as many labels to cut out as the caches ask for, with their text."""
    caches = caches_of(facts.request, solved)
    sections = cache_pages(facts)
    cards = [card for s in sections for b in s.blocks for card in getattr(b, "cards", ())]
    assert len(cards) == sum(cache.labels for cache in caches)
    assert {card[1] for card in cards} == {cache.label for cache in caches}
    (table,) = tables_of(*sections)
    food = [unit for cache in caches for unit in cache.food]
    assert food
    assert all(facts.said(unit.model_dump()) in words_of(*sections) for unit in food)
    assert not any("all/" in row[5] for row in table.rows)


def test_a_flight_has_the_pilot_first(solved):
    """The manifest begins with who decides, and adds up people and cargo."""
    unit = {"unit_id": "tent", "name": None, "count": 2, "each_kg": 3.9, "each_l": 9}
    flight = {
        "flight_id": "f1", "direction": "fly_in", "people": [{"person_id": "lead", "kg": 90}],
        "seats": 3, "people_kg": 90, "cargo_kg": 7.8, "payload_kg": 400, "fuel_aboard": True,
        "units": [unit],
    }  # fmt: skip
    outcome = {**solved, "plan": {**solved["plan"], "flights": [flight]}}
    (made,) = flight_pages(facts_of(outcome, "metric"))
    assert made.blocks[0].lines[0] == PILOT_DECIDES
    assert "97.8 kg" in made.blocks[0].lines[1]
    assert "2 × tent" in words_of(made)


def test_assumptions_and_cautions_are_all_there(solved, facts):
    """Each assumption stands once with how often; each caution stands in full."""
    rows = tables_of(assumptions(facts))[0].rows
    assert sum(int(row[2]) for row in rows) == len(solved["assumptions"])
    assert cautions(facts).blocks[0].lines == tuple(c["text"] for c in solved["cautions"])


def test_units_are_written_as_asked(solved):
    """27.2 kg are 60.0 lb, 1 L is 1.1 qt, 2050 m are 6726 ft."""
    us = Writer("us")
    written = (us.mass(27.2155), us.volume(1), us.elevation(2050), us.mass_unit, us.volume_unit)
    assert written == ("60.0", "1.1", "6726 ft", "lb", "qt")
    names = [c.name for t in tables_of(*day_pages(facts_of(solved, "us"))) for c in t.columns]
    assert "Pack lb" in names
    assert "Pack kg" not in names


def test_units_of_a_load_are_put_into_words(facts):
    """The number and the name, or the id; the own kit is weighed, and what is in use left out."""
    bag = {"unit_id": "north/low", "name": "night sets", "count": 3, "each_kg": 1.0}
    own = {"unit_id": "lead/pad", "name": None, "count": 2, "each_kg": 0.6}
    rope = {"unit_id": "rope", "name": "rope", "count": 1, "each_kg": 0.0}
    assert facts.said(bag) == "3 × night sets"
    assert facts.said({"unit_id": "north/odd", "name": None, "count": 1}) == "north/odd"
    assert (
        besides_own_kit(facts, [bag, own, rope], "lead")
        == "3 × night sets; own kit (2 pieces, 1.2 kg)"
    )
    assert besides_own_kit(facts, [], "lead") == "–"


def test_what_a_kitchen_or_somebody_else_owns_says_whose_it_is(solved):
    """Cans of two kitchens are told apart, and so are two pads of which one is another's."""
    changed = copy.deepcopy(solved)
    load = changed["plan"]["trips"][0]["loads"][0]
    whose = {"north/can": "can (north)", "south/can": "can (south)", "third/pad": "pad of third"}
    for unit_id, label in whose.items():
        owner = "third" if unit_id == "third/pad" else None
        unit = {"unit_id": unit_id, "name": label.split(" ")[0], "count": 1, "each_kg": 0.5}
        load["pack"].append(unit | {"each_l": 1.0})
        changed["plan"]["units"].append(
            {"unit_id": unit_id, "label": label, "kind": "gear", "purpose": None, "owner": owner}
        )
    facts = facts_of(changed, "metric")
    for cell in (tables_of(day_pages(facts)[0])[0].rows[0][4], words_of(person_pages(facts)[0])):
        assert "can (north); can (south); pad of third" in cell


def test_each_persons_own_kit_stands_once_on_their_sheet(facts):
    """All pieces with their mass add up to the kit; each day says where it is listed."""
    for section in person_pages(facts):
        kit = tables_of(section)[-1]
        total = float(kit.caption.removeprefix("Own kit: ").removesuffix(" kg"))
        assert total == pytest.approx(sum(float(row[2]) for row in kit.rows), abs=0.1)
        assert len(kit.rows) > 3
    assert words_of(*day_pages(facts)).count(OWN_KIT) == sum(
        bool(facts.trips_of(day["day"])) for day in facts.plan["days"]
    )


def with_rope_in_use(solved: dict) -> PlanFacts:
    """The plan with a rope in the first person's hands on its first trip."""
    changed = copy.deepcopy(solved)
    load = changed["plan"]["trips"][0]["loads"][0]
    rope = {"unit_id": "line", "name": "hand line", "count": 1, "each_kg": 0.0, "each_l": 0.0}
    load["pack"].append(rope)
    changed["plan"]["taken_along"].append(rope | {"each_kg": 1.5})
    return facts_of(changed, "metric")


def test_what_is_in_use_is_in_no_load(solved):
    """The day says who has it, the person's trip has it in a column of its own."""
    facts = with_rope_in_use(solved)
    lead = facts.person(facts.plan["trips"][0]["loads"][0]["person_id"])
    assert f"In use, in no load: hand line: {lead}." in words_of(*day_pages(facts))
    days = [t for t in tables_of(*day_pages(facts)) if t.columns[-1].name == "Counted"]
    assert not any("hand line" in cell for t in days for row in t.rows for cell in row)
    trip = tables_of(person_pages(facts)[0])[0].rows[0]
    assert "hand line" not in trip[5]
    assert trip[6] == "hand line"
    (row,) = (row for row in tables_of(keepers(facts))[0].rows if row[0] == "hand line")
    assert row[2] == "1.50"


def test_of_the_own_kit_few_words_are_said(facts):
    """All of it, all but what waits elsewhere, or what is on every trip and a few pieces more."""
    person = facts.people[0]
    own = [u for u in facts.plan["taken_along"] if u["unit_id"].startswith(f"{person}/")]
    always = on_every_trip(facts, person)
    assert 0 < len(always) < len(own)
    daily = [u for u in own if u["unit_id"] in always]
    other = [u for u in own if u["unit_id"] not in always]
    kg = f"{sum(u['count'] * u['each_kg'] for u in own):.1f}"

    def said(units: list[dict]) -> str:
        return kit_along(facts, {"pack": units, "sled": []}, person)

    assert said(own) == f"own kit ({kg} kg): all of it"
    assert said(daily).endswith(" kg): what is on every trip")
    assert said([*daily, other[0]]).endswith(f"every trip, and {other[0]['name']}")
    assert said([*daily, *other[1:]]).endswith(f" kg): all but {other[0]['name']}")
    assert said([]) == ""
    kit = tables_of(person_pages(facts)[0])[-1]
    assert sum(row[3] == "every trip" for row in kit.rows) == len(always)


def test_the_sled_of_a_person_stands_apart_from_the_pack(facts):
    """On the sheet of a person, what is on the sled comes after what is in the pack."""
    trips = tables_of(person_pages(facts)[0])[0].rows
    loads = [load for _, load in facts.loads_of(facts.people[0])]
    for row, load in zip(trips, loads, strict=True):
        shared = [u for u in load["sled"] if "lead/" not in u["unit_id"] and u["each_kg"]]
        assert ("On the sled: " in row[5]) is bool(shared)


def test_the_keepers_sheet_says_when_others_have_a_thing(facts):
    """Whoever keeps a single thing is named apart from others, who come with days."""
    made = keepers(facts)
    assert "has a keeper" in words_of(made)
    for unit_id, keeper in ((one.unit_id, one) for one in keepers_of(facts.plan)):
        name = next(
            u["name"] or unit_id for u in facts.plan["taken_along"] if u["unit_id"] == unit_id
        )
        row = next(r for r in tables_of(made)[0].rows if r[0] == name)
        assert row[3] == facts.person(keeper.person_id)
        for other in keeper.elsewhere:
            assert f"{facts.person(other.person_id)} " in row[4]
            assert str(other.day) in row[4]


def test_what_a_request_says_is_never_markup(rendered):
    """The title of the request is text on the page."""
    html = rendered.html.decode()
    assert "Trip &lt;b&gt;&amp; &#34;co&#34;&lt;/b&gt;" in html
    assert "<b>" not in html


def test_the_file_needs_nothing_else(rendered):
    """No script and no address of another file; the policy names the style by its hash."""
    html = rendered.html.decode()
    assert "<script" not in html
    assert re.findall(r'(?:src|href)="(?!#|data:)', html) == []
    style = re.search(r"<style>(.*?)</style>", html, re.DOTALL)[1]
    digest = base64.b64encode(hashlib.sha256(style.encode()).digest()).decode()
    assert f"style-src 'sha256-{digest}'" in rendered.policy
    assert "style=" not in html.replace("<style>", "")


def test_no_text_is_smaller_than_nine_points(rendered):
    """Every size of the style is at least 9 pt; pictures are drawn at the width of the paper."""
    style = re.search(r"<style>(.*?)</style>", rendered.html.decode(), re.DOTALL)[1]
    sizes = [float(size) for size in re.findall(r"(?:font|font-size): ?([\d.]+)pt", style)]
    assert len(sizes) > 5
    assert min(sizes) >= 9
    # 13 units at 3.78 units a millimetre, in points of 25.4 / 72 mm.
    assert 13 / 3.78 / (25.4 / 72) > 9
    assert drawing_width("a5") < drawing_width("a4")


def test_sheets_can_be_chosen(facts):
    """Only the sheets that are asked for are made, in the order of the print-out."""
    made = sections_of(facts, paper="a5", only=frozenset({"losses", "cover"}))
    assert [section.section_id for section in made] == ["cover", "losses"]
    assert len(drawings(facts, width=400).blocks) >= 4
