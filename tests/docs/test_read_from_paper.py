"""From the print-out alone: what somebody packs, who has the stove, what changes hands where.

    HAULWRIGHT_PAPER="guided-twelve" pytest tests/docs/test_read_from_paper.py

reads the print-outs of these examples, too; without it those of the three and the six. Each plan is
printed in lines, as `examples/print_plan.py` does, and as the pages of the service. The plans
are rough ones, found in a few seconds: much more changes hands in them than in finished ones.

The file is long because all its questions are asked of the same few print-outs, which take seconds
to solve.
"""

from __future__ import annotations

import json
import os
import re
import subprocess
import sys
import time
from collections import Counter
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from service.pages.facts import PlanFacts, Writer
from service.pages.render import render_pages
from service.pages.sections import sections_of
from service.translate.read.requests import read_plan_request
from service.translate.write.outcomes import write_outcome
from solver.pipeline import plan
from solver.progress import Watch
from tests.docs.pages_reader import read_pages
from tests.docs.paper_reader import Paper, PaperKitchen, brought_by, read_paper

ROOT = Path(__file__).parents[2]
EXAMPLES = ("independent-three", "guided-six", *os.environ.get("HAULWRIGHT_PAPER", "").split())
SECONDS = (3.0, 30.0, 600.0)
"""A clock for a rough plan, and longer ones where the machine is too busy for it."""
Document = dict[str, Any]


@cache
def rough_plan(name: str) -> tuple[Document, Document]:
    """The request and the outcome of an example, found in a few seconds."""
    document = json.loads((ROOT / f"examples/{name}.json").read_text(encoding="utf-8"))
    read = read_plan_request(document)
    for seconds in SECONDS:
        watch = Watch(seconds, now=time.monotonic)
        solved = plan(read.problem, read.limits, watch, timeline=read.timeline)
        outcome = json.loads(write_outcome(solved, read).model_dump_json(by_alias=True))
        if outcome["outcome"] == "solved":
            break
    return document, outcome


def lines_of(document: Document, outcome: Document) -> str:
    """The print-out in lines."""
    run = subprocess.run(
        [sys.executable, "examples/print_plan.py"],
        cwd=ROOT,
        input=json.dumps({"outcome_kind": "solved", "outcome": outcome}),
        capture_output=True,
        text=True,
        check=True,
    )
    return run.stdout


def pages_of(document: Document, outcome: Document) -> str:
    """The first sheet and those of the days and the people, as HTML."""
    facts = PlanFacts("plan", 1, "today", outcome, document, Writer("metric"))
    sections = sections_of(facts, paper="a4", only=frozenset({"cover", "days", "people"}))
    return render_pages(facts, sections, "a4").html.decode()


MEDIA = {"lines": (lines_of, read_paper), "pages": (pages_of, read_pages)}
"""How a plan is printed, and who reads it."""


@pytest.fixture(scope="module", params=[(name, one) for name in EXAMPLES for one in MEDIA], ids=str)
def sheets(request) -> tuple[Document, str, str]:
    """The plan of an example as JSON with its roster, its print-out, and in which medium."""
    name, medium = request.param
    document, outcome = rough_plan(name)
    told = MEDIA[medium][0](document, outcome)
    return {**outcome["plan"], "roster": document["roster"]}, told, medium


@pytest.fixture(scope="module")
def printed(sheets) -> tuple[Document, Paper]:
    """The plan of an example as JSON, and its print-out as somebody reads it."""
    document, text, medium = sheets
    return document, MEDIA[medium][1](text)


def _labels(document: Document, units: list[Document], whose: str = "") -> Counter[str]:
    """Units of the answer by name; one's own things without saying whose."""
    named = {unit["unit_id"]: unit["label"] for unit in document["units"]}
    found: Counter[str] = Counter()
    for unit in units:
        found[named[unit["unit_id"]].removesuffix(f" of {whose}")] += unit["count"]
    return found


def _pieces(document: Document, units: list[Document], whose: str) -> Counter[str]:
    """Units of the answer by name; of the own kit only how many pieces there are."""
    own = [unit for unit in units if unit["unit_id"].startswith(f"{whose}/")]
    shared = [unit for unit in units if unit not in own]
    number = sum(unit["count"] for unit in own)
    return _labels(document, shared) + Counter({"own kit": number})


def _placed(load: Document) -> tuple[list[Document], list[Document], list[Document]]:
    """The units of a load in the pack, on the sled, and in use: those add no mass."""
    pack, sled = ([u for u in load[part] if u["each_kg"]] for part in ("pack", "sled"))
    used = [u for u in (*load["pack"], *load["sled"]) if not u["each_kg"]]
    return pack, sled, used


def test_what_anybody_packs_on_any_day(printed) -> None:
    """Pack, sled and what is in use, of everybody on every trip, the second on day 5 among them."""
    document, paper = printed
    read = 0
    for day in document["days"]:
        trips = [trip for trip in document["trips"] if trip["day"] == day["day"]]
        told = paper.trips[day["day"]]
        assert [(t.from_place, t.to_place) for t in told] == [(t["from"], t["to"]) for t in trips]
        for trip, on_paper in zip(trips, told, strict=True):
            for load in trip["loads"]:
                who = load["person_id"]
                pack, sled, used = _placed(load)
                name = _pieces if paper.own_in_pieces else _labels
                assert on_paper.packs[who] == name(document, pack, who)
                if load["sled_id"]:
                    assert on_paper.sleds[who] == name(document, sled, who)
                assert on_paper.used.get(who, Counter()) == _labels(document, used, who)
                read += 1
    assert read == sum(len(trip["loads"]) for trip in document["trips"])
    second = document["trips"][0]["loads"][1]["person_id"]
    assert all(trip.packs[second] for trip in paper.trips[5])


def test_each_person_has_a_sheet_of_their_own(printed) -> None:
    """On pages the sheet of a person has the same of each trip, and what own kit is on the sled.

    The lines have no such sheets.
    """
    document, paper = printed
    loads = {
        who: [
            (t, load) for t in document["trips"] for load in t["loads"] if load["person_id"] == who
        ]
        for who in (one["person_id"] for one in document["roster"])
    }
    read = 0
    for who, trips in paper.people.items():
        for told, (trip, load) in zip(trips, loads[who], strict=True):
            parts = _placed(load)
            pack, sled, used = (_labels(document, part, who) for part in parts)
            own = {u["unit_id"] for u in document["units"] if u["unit_id"].startswith(f"{who}/")}
            kit = [_labels(document, [u for u in p if u["unit_id"] in own], who) for p in parts]
            assert told.day == trip["day"]
            assert told.pack == pack - kit[0]
            assert told.sled == sled - kit[1]
            assert (told.sled_own, told.used) == (kit[1], used)
            read += 1
    assert read == (sum(map(len, loads.values())) if paper.own_in_pieces else 0)


def _arrivals(document: Document, place: str, label: str) -> Counter[tuple[int, str]]:
    """How many of a thing each person carried to a place on each day."""
    named = {unit["unit_id"]: unit["label"] for unit in document["units"]}
    return Counter(
        {
            (day, who): sum(
                unit["count"]
                for trip in document["trips"]
                if (trip["day"], trip["to"]) == (day, place)
                for load in trip["loads"]
                if load["person_id"] == who
                for unit in (*load["pack"], *load["sled"])
                if named[unit["unit_id"]] == label
            )
            for day in {trip["day"] for trip in document["trips"]}
            for who in {load["person_id"] for trip in document["trips"] for load in trip["loads"]}
        }
    )


def _told_of(document: Document, kitchen: PaperKitchen, day: int, kind: str) -> Counter[str]:
    """Things of a kind on the paper of a night by name, after who brought them was compared.

    Nobody is named for more than they carried there that day. As many as the place has more than
    the night before were brought today.
    """
    place, names = kitchen.place, Counter[str]()
    for told in kitchen.things[kind]:
        number, name, brought = brought_by(told)
        names[name] += number
        arrivals = _arrivals(document, place, name)
        today = 0
        for one in brought:
            # An opened can was carried while it was closed, or was carried open.
            closed = _arrivals(document, place, name.replace(", open", ""))
            carried = arrivals[one.day or day, one.person] or closed[one.day or day, one.person]
            assert one.count <= carried, (day, told)
            assert one.day < day
            today += 0 if one.day else one.count
        is_start = place == document["trips"][0]["from"]
        if ", open" not in name:
            assert today >= number - _stock(document, day - 1, place)[name] or is_start, (day, told)
        assert sum(one.count for one in brought) == number or is_start, (day, told)
    return names


def _stock(document: Document, day: int, place: str) -> Counter[str]:
    """What stands at a place after a night, by name."""
    for entry in document["stock"]:
        if (entry["day"], entry["place"]) == (day, place):
            return _labels(document, entry["units"])
    return Counter()


@pytest.mark.parametrize("kind", ["stove", "pot", "shelter"])
def test_who_has_stove_pot_and_shelter_on_any_night(printed, kind) -> None:
    """As many as stand there, each brought by somebody who carried that many there that day."""
    document, paper = printed
    ids = {u["unit_id"] for u in document["units"] if u["purpose"] == kind}
    asked = 0
    for day, kitchens in paper.kitchens.items():
        for kitchen in kitchens:
            there = _stock(document, day, kitchen.place)
            ours = {u["label"] for u in document["units"] if u["unit_id"] in ids}
            expected = Counter({name: n for name, n in there.items() if name in ours})
            assert _told_of(document, kitchen, day, kind) == expected
            asked += 1
    assert asked == len(document["used"])


def test_which_bags_and_fuel_a_kitchen_has_and_who_brought_them(printed) -> None:
    """Bags as many as are eaten, fuel as much as stands there; nobody brought more than they had.

    Of five bottles of which one came today the paper says so, and who.
    """
    document, paper = printed
    asked = 0
    for used in document["used"]:
        day, place, group = used["day"], used["place"], used["cook_group"]
        (kitchen,) = (k for k in paper.kitchens[day] if (k.place, k.cook_group) == (place, group))
        (bags,) = _labels(document, [{"unit_id": f"{group}/{used['set_id']}", "count": 1}])
        assert _told_of(document, kitchen, day, "food") == Counter({bags: used["bags"]})
        burns = (group.partition("+")[0], None)
        fuel = [
            unit["label"]
            for unit in document["units"]
            if unit["kind"] == "fuel" and unit["cook_group"] in burns
        ]
        there = _stock(document, day, place)
        expected = {n: there[n] for n in fuel if there[n] and ", empty" not in n}
        assert _told_of(document, kitchen, day, "fuel") == Counter(expected)
        asked += 1
    assert asked >= 5


def test_who_sleeps_where(printed) -> None:
    """Each night everybody sleeps where the calendar ends the day of their rope team."""
    document, paper = printed
    asked = 0
    for day in document["days"]:
        if not any(used["day"] == day["day"] for used in document["used"]):
            assert not paper.sleep[day["day"]]
            continue
        ends = {team: places[-1] for team, places in day["places"].items()}
        told = {who: place for place, people in paper.sleep[day["day"]].items() for who in people}
        assert told == {one["person_id"]: ends[one["rope_team"]] for one in document["roster"]}
        asked += 1
    assert asked >= 5


def test_what_stays_in_a_cache_on_any_night(printed) -> None:
    """Where nobody sleeps the paper has everything that stands there, with whose it is."""
    document, paper = printed
    asked = 0
    for entry in document["stock"]:
        days = [day for day in document["days"] if day["day"] == entry["day"]]
        slept = {places[-1] for day in days for places in day["places"].values()}
        if days and entry["place"] not in slept and entry["units"]:
            told = paper.left[entry["day"]].pop(entry["place"])
            assert told == _labels(document, entry["units"]), (entry["day"], entry["place"])
            asked += 1
    assert asked >= 3
    assert not any(paper.left.values())


def _moves(document: Document) -> dict[tuple[int, int, str, str], tuple[Counter, Counter]]:
    """By day, step, place and name, who has more of a thing than before, and who has less."""
    waste = {unit["unit_id"] for unit in document["units"] if unit["kind"] == "waste"}
    before: dict[str, Counter[str]] = {}
    moves: dict[tuple[int, int, str, str], tuple[Counter, Counter]] = {}
    for trip in document["trips"]:
        now: dict[str, Counter[str]] = {}
        for load in trip["loads"]:
            for unit in (*load["pack"], *load["sled"]):
                now.setdefault(unit["unit_id"], Counter())[load["person_id"]] += unit["count"]
        for unit_id, has in now.items():
            had = before.get(unit_id, has)
            before[unit_id] = has
            if unit_id not in waste and (gained := has - had) and (given := had - has):
                (label,) = _labels(document, [{"unit_id": unit_id, "count": 1}])
                key = (trip["day"], trip["step"], trip["from"], label)
                more, fewer = moves.setdefault(key, (Counter(), Counter()))
                units = min(gained.total(), given.total())
                more.update({"": units} | gained)
                fewer.update(given)
    return moves


def test_what_changes_hands_at_a_cache_or_camp(printed) -> None:
    """Before each trip as many of each thing change hands as the loads say, and between whom."""
    document, paper = printed
    moves = _moves(document)
    told: Counter[tuple[int, int, str, str]] = Counter()
    for day, trips in paper.trips.items():
        steps = [trip["step"] for trip in document["trips"] if trip["day"] == day]
        for step, trip in zip(steps, trips, strict=True):
            for change in trip.changes:
                assert change.place == trip.from_place
                for label, count in change.things.items():
                    key = (day, step, change.place, label)
                    more, fewer = moves[key]
                    assert count <= more[change.taker]
                    assert count <= fewer[change.giver]
                    told[key] += count
    assert told == Counter({key: more[""] for key, (more, _) in moves.items()})
    assert told


IN_LINES = {
    "another person brought it": (
        r"(stove: .*?, brought (?:today|on day \d+) by )(\S+)",
        r"\1nobody",
    ),
    "the day is another": (r"(stove: .*?, brought) today by", r"\1 on day 1 by"),
    "one brought all of them": (
        r"(\d x [^:;]+): \d brought today by ([a-z0-9-]+), [^;:]*?(?=;|\n {2,4}\S)",
        r"\1, brought today by \2",
    ),
    "a pot is missing": (r"pot: [^;]+;\s", "pot: "),
    "a bag more is eaten": (r"(food: )(\d)( x )", r"\g<1>9\3"),
    "somebody has a thing less": (r"(pack: own kit; )[^;]+; ", r"\1"),
    "two people have each other's names": (r"    (\S+) ( +pack +[\d.]+ of )", r"    someone\2"),
    "another thing is in use": (r"in use, in no load: [^;]+;", "in use, in no load: ski;"),
    "somebody sleeps elsewhere": (r"Sleep at (\S+): .*", r"Sleep at \1: someone"),
    "a thing in the cache is missing": (r"(Left alone at \S+\n    )[^;]+;\s+", r"\1"),
    "it lies there since another day": (r"(Left alone still: \S+ as on day )\d+", r"\g<1>1"),
    "another place": (r"(Changes hands at )[^ ,]+", r"\1nowhere"),
    "giver and taker are turned round": (
        r"((?:on the way|on day \d+): )(\S+)(\s+to\s+)([^:]+)",
        r"\1\4\3\2",
    ),
    "a hand-over is missing": (r"    Changes hands at .*\n(?:      \S.*\n)*", ""),
}
IN_PAGES = {
    "another person brought it": (
        r"(>stove</td><td[^>]*>[^<;]*?, brought (?:today|on day \d+) by )([^\s<;,]+)",
        r"\1nobody",
    ),
    "the day is another": (r"(>stove</td><td[^>]*>[^<;]*?, brought) today by", r"\1 on day 1 by"),
    "one brought all of them": (
        r"(\d × [^:;<>]+): \d brought today by ([a-z0-9-]+), [^;:<]*(?=[;<])",
        r"\1, brought today by \2",
    ),
    "a pot is missing": (r"(>pot</td><td[^>]*>)[^<;]+; ", r"\1"),
    "a bag more is eaten": (r"(>food</td><td[^>]*>)\d( ×)", r"\g<1>9\2"),
    "somebody has a thing less": (r"(<td class=\"words\">)[^<;]+; (?=[^<]*; water )", r"\1"),
    "something else is on the sled": (r"(?<=of the own kit: )[^;<]+", "piano"),
    "another thing is in use": (r"In use, in no load: .*?: ", "In use, in no load: ski: "),
    "somebody sleeps elsewhere": (r"(Sleep at [^:]+: )[^<]*", r"\1someone."),
    "a thing in the cache is missing": (r"(?<=<td class=\"words\">)[^<;]+; (?=[^<]*\. Of )", ""),
    "it lies there since another day": (r"(?<=>as on day )\d+(?=</td>)", "1"),
    "giver and taker are turned round": (
        r"(<td class=\"who\">)([^<]+)(</td><td class=\"who\">)([^<]+)",
        r"\1\4\3\2",
    ),
    "a hand-over is missing": (
        r"<tr><td class=\"number\">\d</td><td class=\"words\">[^<]+</td><td class=\"who\">.*?</tr>",
        "",
    ),
}
FAULTS = {"lines": IN_LINES, "pages": IN_PAGES}
"""What is changed on paper, once, at the last place where it can be."""
EVERYWHERE = {"one brought all of them"}
"""What is changed at each place, since it may be true at one: who goes twice may bring all."""


def _reads_wrong(document: Document, text: str, medium: str) -> bool:
    """Whether somebody who reads a print-out gets an answer that the plan does not give."""
    try:
        sheets = document, MEDIA[medium][1](text)
        test_each_person_has_a_sheet_of_their_own(sheets)
        test_who_sleeps_where(sheets)
        test_what_stays_in_a_cache_on_any_night(sheets)
        test_what_anybody_packs_on_any_day(sheets)
        test_what_changes_hands_at_a_cache_or_camp(sheets)
        test_which_bags_and_fuel_a_kitchen_has_and_who_brought_them(sheets)
        for kind in ("stove", "pot", "shelter"):
            test_who_has_stove_pot_and_shelter_on_any_night(sheets, kind)
    except (AssertionError, KeyError, StopIteration):
        return True
    return False


def test_a_wrong_word_on_paper_is_found(sheets, subtests) -> None:
    """A wrong person, day, place or number, or a thing left out, is not the plan's answer."""
    document, text, medium = sheets
    assert not _reads_wrong(document, text, medium)
    planted = 0
    for fault, (pattern, instead) in FAULTS[medium].items():
        found = list(re.finditer(pattern, text))
        if not found:
            # The twelve have no bag of which two are eaten at once.
            continue
        planted += 1
        last = found[-1]
        wrong = text[: last.start()] + last.expand(instead) + text[last.end() :]
        if fault in EVERYWHERE:
            wrong = re.sub(pattern, instead, text)
        with subtests.test(fault):
            assert wrong != text
            assert _reads_wrong(document, wrong, medium)
    assert planted >= len(FAULTS[medium]) - 1
