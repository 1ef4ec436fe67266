"""The printer of plans: what it prints is what the answer says, in at most 100 columns.

The file is long because all its tests read the print-out of one plan, which takes seconds to solve.
"""

import copy
import json
import re
import subprocess
import sys
from collections import Counter
from pathlib import Path

import pytest
from fastapi.testclient import TestClient

from service.app import create_app
from service.settings import Settings
from service.translation import TRANSLATION
from solver.rulebook import RULES

ROOT = Path(__file__).parents[2]
SMALLEST = (ROOT / "examples/smallest-request.json").read_bytes()
LOAD = re.compile(
    r"^    (\S+) +pack +([\d.]+) of +([\d.]+) +(?:sled +([\d.]+) of +([\d.]+))? +([\d.]+)%"
)
STOCK = re.compile(
    r"^(start|day \d+) +(\S+) +([\d.]+)(?:  (\S+) +([\d.]+) n +(?:[\d.]+ n|none burnt) +"
    r"(\d+) +([\d.]+) L)?$"
)


@pytest.fixture(scope="module")
def ask(tmp_path_factory):
    """Answers of the service to a request that is sent to it."""
    settings = Settings(database=tmp_path_factory.mktemp("data") / "plans.sqlite3")
    headers = {"Prefer": "wait=50", "Content-Type": "application/json"}
    with TestClient(create_app(settings, TRANSLATION)) as client:
        yield lambda body: client.post("/v1/plans", content=body, headers=headers).json()


@pytest.fixture(scope="module")
def solved(ask) -> dict:
    """The answer to the smallest request."""
    answer = ask(SMALLEST)
    assert answer["outcome_kind"] == "solved"
    return answer


def printed(answer: dict) -> tuple[int, str]:
    """Exit status and output of the printer for an answer on its standard input."""
    run = subprocess.run(
        [sys.executable, "examples/print_plan.py"],
        cwd=ROOT,
        input=json.dumps(answer),
        capture_output=True,
        text=True,
        check=False,
    )
    assert run.stderr == ""
    return run.returncode, run.stdout


def tenths(kilograms: float) -> str:
    """Kilograms as they are printed."""
    return f"{kilograms:.1f}"


def test_everybody_is_printed_on_every_trip_with_the_answers_loads(solved):
    """Each person has one line for each trip, with the pack, sled, caps and share of the answer."""
    status, text = printed(solved)
    assert status == 0
    lines = [match.groups() for line in text.splitlines() if (match := LOAD.match(line))]
    told = [
        (
            load["person_id"],
            tenths(load["pack_kg"]),
            tenths(load["pack_cap_kg"]),
            tenths(load["sled_kg"]) if load["sled_id"] else None,
            tenths(load["sled_cap_kg"]) if load["sled_id"] else None,
            tenths(load["load_fraction"] * 100),
        )
        for trip in solved["outcome"]["plan"]["trips"]
        for load in trip["loads"]
    ]
    assert len(told) == 3 * 8
    assert lines == told


def test_the_loads_printed_are_what_the_units_weigh(solved):
    """A printed pack is the sum of its units, water and lunch, to the rounding of a line."""
    _, text = printed(solved)
    lines = [match.groups() for line in text.splitlines() if (match := LOAD.match(line))]
    loads = [load for trip in solved["outcome"]["plan"]["trips"] for load in trip["loads"]]
    for line, load in zip(lines, loads, strict=True):
        units = sum(unit["count"] * unit["each_kg"] for unit in load["pack"])
        # A line shows tenths, so it may be half a tenth off.
        assert abs(float(line[1]) - (units + load["water_kg"] + load["lunch_kg"])) <= 0.0501


def test_the_stock_printed_is_that_of_every_night_that_differs(solved):
    """Each place has its line for each night with other stock than the night before, no more."""
    _, text = printed(solved)
    lines = [match.groups() for line in text.splitlines() if (match := STOCK.match(line))]
    told = []
    before = {}
    for night in solved["outcome"]["plan"]["stock"]:
        is_old = before.get(night["place"]) == (night["units"], night["cook_groups"])
        before[night["place"]] = night["units"], night["cook_groups"]
        if is_old:
            continue
        when = f"day {night['day']}" if night["day"] else "start"
        row = (when, night["place"], tenths(night["kg"]))
        groups = [
            (
                group["cook_group"],
                tenths(group["nights_of_food"]),
                str(group["night_sets"]),
                f"{group['fuel_ml'] / 1000:.2f}",
            )
            for group in night["cook_groups"]
        ]
        told += [row + group for group in groups or [(None, None, None, None)]]
    assert len(lines) > 6
    assert lines == told


def test_the_totals_printed_balance(solved):
    """Taken along and coming down are the sums of their units, and what is used is all nights'."""
    _, text = printed(solved)
    plan = solved["outcome"]["plan"]
    weighed = Counter()
    for part in ("taken_along", "comes_down"):
        for unit in plan[part]:
            weighed[part] += unit["count"] * round(1000 * unit["each_kg"])
    sets = sum(night["people"] for night in plan["used"])
    litres = sum(night["fuel_ml"] for night in plan["used"]) / 1000
    assert f"taken along {weighed['taken_along'] / 1000:.1f} kg" in text
    assert f"comes down  {weighed['comes_down'] / 1000:.1f} kg" in text
    assert f"used        {sets} night sets, {litres:.2f} L of fuel" in text
    assert sets == 3 * 5


def test_peak_floor_and_bound_stand_together(solved):
    """The peak by hand, the peak solved, the bound, the gap and the verdict are printed."""
    _, text = printed(solved)
    outcome = solved["outcome"]
    peak = outcome["peak"]
    assert (
        f"peak load: {peak['load_fraction']:.2%}. Hand-packing heuristic: "
        f"{outcome['greedy_peak']:.2%}\n" in text
    )
    assert f"lower bound {outcome['bound']:.2%}, gap {outcome['gap']:.2%}" in text
    assert f"the {peak['binding']} of {peak['person_id']} on day {peak['day']}, " in text
    check = outcome["check"]
    told = f"{check['rules_checked']} rules, 0 findings, {len(check['remarks'])} remarks"
    assert f"independent check: passed, {told}" in text
    assert 0 < check["rules_checked"] <= len(RULES)
    assert len(re.findall(r"[#.] peak$", text, re.MULTILINE)) == 1


def test_every_caution_is_printed(solved):
    """No caution of the answer is left out."""
    _, text = printed(solved)
    joined = " ".join(text.split())
    for caution in solved["outcome"]["cautions"]:
        assert caution["text"] in joined


def remark(rule_id: str, kind: str, message: str, reason: str | None = None) -> dict:
    """A remark as an answer has it."""
    return {
        "rule_id": rule_id,
        "kind": kind,
        "message": message,
        "amount": 1,
        "unit": "g",
        "where": {},
        "instead": [],
        "reason": reason,
    }


def test_remarks_are_printed_once_a_rule_with_the_leaders_reason(solved):
    """Cautions and preferences stand apart; of one rule the first remark and the count of more."""
    told = copy.deepcopy(solved)
    told["outcome"]["check"]["remarks"] = [
        remark("total_cap_held", "advisory", "Day 1: 2 kg too much.", "Tried before."),
        remark("total_cap_held", "advisory", "Day 2: 1 kg too much.", "Tried before."),
        remark("few_hand_overs", "preference", "Day 3: 4 units change."),
    ]
    _, text = printed(told)
    cautions, preferences = (
        text.split("Advisories")[1].split("How good the")[0].split("Preferences not met")
    )
    assert (
        "- total_cap_held: Day 1: 2 kg too much. (and 1 more) The leader's reason: Tried"
        in cautions
    )
    assert "Day 2" not in cautions
    assert "- few_hand_overs: Day 3: 4 units change.\n" in preferences


def test_without_remarks_and_flights_there_are_no_headings_for_them(solved):
    """What there is nothing to say of has no heading."""
    bare = copy.deepcopy(solved)
    bare["outcome"]["check"]["remarks"] = []
    _, text = printed(bare)
    assert bare["outcome"]["plan"]["flights"] == []
    assert not [h for h in ("Advisories", "Preferences not", "Flights") if h in text]


def test_flights_are_printed_with_people_cargo_and_fuel(solved):
    """A flight's line has its masses, payload, seats and fuel; people and units stand below."""
    flown = copy.deepcopy(solved)
    unit = {"unit_id": "all/can", "name": None, "count": 3, "each_kg": 0.8, "each_l": 1.1}
    flown["outcome"]["plan"]["flights"] = [
        {
            "flight_id": "in-1",
            "direction": "fly_in",
            "people": [{"person_id": "lead", "kg": 91.3}],
            "seats": 2,
            "people_kg": 91.3,
            "cargo_kg": 2.4,
            "payload_kg": 350.0,
            "load_fraction": 0.2678,
            "cargo_l": 3.3,
            "volume_l": None,
            "fuel_aboard": True,
            "units": [unit],
        }
    ]
    _, text = printed(flown)
    section = text.split("Flights: ")[1].split("Totals")[0]
    assert re.search(
        r"in-1 +fly-in +people +91\.3 \+ cargo +2\.4 of +350\.0 kg +26\.8% +1 of 2 seats +FUEL",
        section,
    )
    assert "    lead\n" in section
    assert "    3 x all/can\n" in section


def test_what_was_not_judged_is_printed_first(solved):
    """Where no rule of glaciers was asked, plan and refusal say so before anything else."""
    word = {"caution_id": "glacier_rules_not_asked", "text": "No leg gives its crevasse hazard."}
    bare = copy.deepcopy(solved)
    bare["outcome"]["cautions"].insert(0, word)
    _, text = printed(bare)
    assert text.splitlines()[1] == "  NOT CHECKED: No leg gives its crevasse hazard."
    outcome = {"outcome": "infeasible", "conflicts": [], "cautions": [word], "assumptions": []}
    _, text = printed({"outcome_kind": "infeasible", "outcome": outcome})
    assert text.splitlines()[0] == "  NOT CHECKED: No leg gives its crevasse hazard."
    _, text = printed(solved)
    assert "NOT CHECKED" not in text


def test_a_refusal_says_what_would_be_allowed():
    """Below each cause stand its other places, then the changes that are allowed, and the time."""
    ways = [
        {"text": "another flight", "is_decision": False},
        {"text": "a smaller reserve", "is_decision": True},
    ]
    conflict = {
        "rule_id": "seats_for_all",
        "message": "One seat.",
        "pointer": "/flights/0",
        "more": [{"message": "No seat out."}] * 7,
        "remedies": ways,
    }
    outcome = {
        "outcome": "infeasible",
        "conflicts": [conflict],
        "solve": {"seconds": {"request": 0.25}},
        "cautions": [{"caution_id": "who_decides", "text": "The leader decides."}],
        "assumptions": [],
    }
    status, text = printed({"outcome_kind": "infeasible", "outcome": outcome})
    assert status == 1
    assert "  seats_for_all: One seat. (/flights/0)\n    also: No seat out.\n" in text
    assert text.count("also: ") == 5
    assert "    and 2 times more\n    allowed instead: another flight\n" in text
    assert "allowed instead: a decision of the leader, after all else: a smaller reserve" in text
    assert "\nFound in 0.2 s.\n" in text
    assert "Cautions\n--------\n  - The leader decides.\n" in text


def test_no_line_is_longer_than_the_width(solved):
    """Lines stay within 100 columns, long names and notes included."""
    long = copy.deepcopy(solved)
    plan = long["outcome"]["plan"]
    plan["days"][0]["note"] = "a note " * 40
    plan["trips"][0]["loads"][0]["person_id"] = "someone-with-a-very-long-identifier"
    plan["stock"][0]["place"] = "somewhere-with-a-very-long-identifier"
    _, text = printed(long)
    assert max(map(len, text.splitlines())) <= 100


def test_a_trip_that_cannot_be_is_told_by_its_rules(ask):
    """For caps that are too low the printer names rule, trip and kilograms, and exits with 1."""
    request = json.loads(SMALLEST)
    for person in request["roster"]:
        person["pack_cap"] = "12 kg"
    status, text = printed(ask(json.dumps(request)))
    assert status == 1
    assert "No plan: this request cannot keep all of these rules." in text
    assert re.search(r"pack_cap_held: Day \d+, \S+ to \S+: .* [\d.]+ kg too much", text)


def test_a_refused_request_is_told_by_its_faults(ask):
    """For a faulty request the printer names each fault's place, and exits with 1."""
    status, text = printed(ask(b'{"colour": "red"}'))
    assert status == 1
    assert "/colour: There is no such field." in text
    assert "(whole body): route: " in text


def section_of_day(text: str, day: int) -> str:
    """All that is printed of one day."""
    days = text.split("\nStock: ", maxsplit=1)[0].split("\nDay ")
    (section,) = (part for part in days if part.startswith(f"{day}  "))
    return section


def names_in(solved: dict, units: list[dict]) -> set[str]:
    """What units are called on paper, with their count."""
    labels = {unit["unit_id"]: unit["label"] for unit in solved["outcome"]["plan"]["units"]}
    return {
        (f"{u['count']} x " if u["count"] > 1 else "")
        + labels[u["unit_id"]].removesuffix(" of second")
        for u in units
    }


def test_the_paper_says_what_the_second_packs(solved):
    """Under each trip the second's pack and sled are listed by name, all of it and no unit id."""
    _, text = printed(solved)
    kits = text.split("Own kit: ")[1].split("  second, ")[1].split("  third, ")[0]
    own = " ".join(kits.partition(" kg: ")[2].split())
    compared = 0
    for trip in solved["outcome"]["plan"]["trips"]:
        part = section_of_day(text, trip["day"]).split(f"  {trip['from']} to {trip['to']}, ")[1]
        mine = part.split("    second  ")[1].split("    third  ")[0].partition("pack: ")[2]
        pack, _, sled = mine.partition("      sled-2: ")
        load = next(one for one in trip["loads"] if one["person_id"] == "second")
        told = set(" ".join(pack.split()).split("; ")) - {"own kit"}
        told = {thing for thing in told if not thing.startswith("water ")}
        assert told | set(own.split("; ")) == names_in(solved, load["pack"])
        assert (set(" ".join(sled.split()).split("; ")) - {"", "nothing"}) == names_in(
            solved, load["sled"]
        )
        compared += 1
    assert compared == 8
    assert not re.search(r"(second|all)/", text.split("\nStock: ", maxsplit=1)[0])


def test_the_paper_says_who_has_the_stove_that_night(solved):
    """Each night's kitchen names who brought the stoves last: whoever carried them there."""
    _, text = printed(solved)
    plan = solved["outcome"]["plan"]
    for used in plan["used"]:
        arrivals = [
            (trip["day"], load["person_id"])
            for trip in plan["trips"]
            if trip["to"] == used["place"] and trip["day"] <= used["day"]
            for load in trip["loads"]
            for unit in (*load["pack"], *load["sled"])
            if unit["unit_id"] == "stove"
        ]
        lines = section_of_day(text, used["day"]).splitlines()
        (line,) = (one for one in lines if one.startswith("    stove: "))
        if not arrivals:
            assert line == "    stove: 2 x stove"
            continue
        last = max(day for day, _ in arrivals)
        when = "today" if last == used["day"] else f"on day {last}"
        who = " and ".join(person for day, person in arrivals if day == last)
        assert line == f"    stove: 2 x stove, brought {when} by {who}"


def test_the_paper_says_what_changes_hands_at_the_cache(solved):
    """A pot that one left at a place and another takes up there is named with both and why."""
    moved = copy.deepcopy(solved)
    trips = moved["outcome"]["plan"]["trips"]
    riding = [
        (trip, load, part)
        for trip in trips
        for load in trip["loads"]
        for part in ("pack", "sled")
        if any(unit["unit_id"] == "pot" for unit in load[part])
    ]
    trip, load, part = riding[1]
    pot = next(unit for unit in load[part] if unit["unit_id"] == "pot")
    giver = riding[0][1]["person_id"]
    taker = next(one for one in trip["loads"] if one["person_id"] != giver)
    load[part].remove(pot)
    taker["pack"].append(pot)
    _, text = printed(moved)
    told = " ".join(section_of_day(text, trip["day"]).split())
    way = f"{giver} to {taker['person_id']}: "
    place = f"Changes hands at {trip['from']}, last carried on day {riding[0][0]['day']}: {way}"
    assert re.search(re.escape(place) + r"[^()]*\bpot\b[^()]*\([^()]+\)", told)


def test_keepers_and_cautions_that_the_plan_calls_for_come_first(solved):
    """Before the first day stand the cautions of this plan, the keepers and everybody's own kit."""
    _, text = printed(solved)
    headings = ("Cautions that this plan calls for", "Keepers: ", "Own kit: ", "Day 1 ")
    order = [text.index(heading) for heading in headings]
    assert order == sorted(order)
    head = " ".join(text[: text.index("Keepers: ")].split())
    assert "poison you with carbon monoxide" in head
    assert "Print the plan and carry two copies" not in head


def test_the_printer_needs_nothing_installed(solved):
    """It runs without any site packages, as on a machine that only has the repository."""
    run = subprocess.run(
        [sys.executable, "-S", "-I", "examples/print_plan.py"],
        cwd=ROOT,
        input=json.dumps(solved),
        capture_output=True,
        text=True,
        check=False,
    )
    assert (run.returncode, run.stderr) == (0, "")
