"""From the print-out alone: what somebody packs, who has the stove, what changes hands where.

    HAULWRIGHT_PAPER="guided-six guided-twelve" pytest tests/docs/test_read_from_paper.py

reads the print-outs of these examples, too; without it only that of the example for three.
"""

from __future__ import annotations

import json
import os
import subprocess
import sys
import time
from collections import Counter
from pathlib import Path
from typing import Any

import pytest

from service.translate.read.requests import read_plan_request
from service.translate.write.outcomes import write_outcome
from solver.pipeline import plan
from solver.progress import Watch
from tests.docs.paper_reader import Paper, brought_by, counted, read_paper

ROOT = Path(__file__).parents[2]
EXAMPLES = ("independent-three", *os.environ.get("HAULWRIGHT_PAPER", "").split())
Document = dict[str, Any]


@pytest.fixture(scope="module", params=EXAMPLES)
def printed(request) -> tuple[Document, Paper]:
    """The plan of an example as JSON, and its print-out as somebody reads it."""
    document = json.loads((ROOT / f"examples/{request.param}.json").read_text(encoding="utf-8"))
    read = read_plan_request(document)
    watch = Watch(600.0, now=time.monotonic)
    solved = plan(read.problem, read.limits, watch, timeline=read.timeline)
    outcome = json.loads(write_outcome(solved, read).model_dump_json(by_alias=True))
    run = subprocess.run(
        [sys.executable, "examples/print_plan.py"],
        cwd=ROOT,
        input=json.dumps({"outcome_kind": "solved", "outcome": outcome}),
        capture_output=True,
        text=True,
        check=True,
    )
    return outcome["plan"], read_paper(run.stdout)


def _labels(document: Document, units: list[Document], whose: str = "") -> Counter[str]:
    """Units of the answer by name; one's own things without saying whose."""
    named = {unit["unit_id"]: unit["label"] for unit in document["units"]}
    found: Counter[str] = Counter()
    for unit in units:
        found[named[unit["unit_id"]].removesuffix(f" of {whose}")] += unit["count"]
    return found


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
                assert on_paper.packs[who] == _labels(document, pack, who)
                if load["sled_id"]:
                    assert on_paper.sleds[who] == _labels(document, sled, who)
                assert on_paper.used.get(who, Counter()) == _labels(document, used, who)
                read += 1
    assert read == sum(len(trip["loads"]) for trip in document["trips"])
    second = document["trips"][0]["loads"][1]["person_id"]
    assert all(trip.packs[second] for trip in paper.trips[5])


def test_who_has_the_stove_on_any_night(printed) -> None:
    """As many stoves as stand there, each brought by somebody who carried one to that place."""
    document, paper = printed
    stoves = {u["unit_id"] for u in document["units"] if u["purpose"] == "stove"}
    asked = 0
    for entry in document["stock"]:
        there = [unit for unit in entry["units"] if unit["unit_id"] in stoves]
        for kitchen in paper.kitchens.get(entry["day"], ()):
            if kitchen.place != entry["place"] or not there:
                continue
            told = [brought_by(thing) for thing in kitchen.things["stove"]]
            names = Counter[str]()
            for what, _ in told:
                number, name = counted(what)
                names[name] += number
            assert names == _labels(document, there)
            carried = {
                load["person_id"]
                for trip in document["trips"]
                if trip["day"] <= entry["day"] and trip["to"] == entry["place"]
                for load in trip["loads"]
                for unit in (*load["pack"], *load["sled"])
                if unit["unit_id"] in stoves
            }
            for _, people in told:
                assert people <= carried
                assert people or entry["place"] == document["trips"][0]["from"]
            asked += 1
    assert asked >= 3


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
