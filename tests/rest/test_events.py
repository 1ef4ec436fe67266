"""Each event of an expedition that is under way has an answer of substance, from state to words.

The list of events is common practice, no source. The expedition is the example for three.
"""

import copy
import json
from functools import cache
from pathlib import Path

import pytest

from service.jobs.child import solve_document
from service.jobs.child_process import SILENT, JobLimits
from service.translate.read.replans import with_state
from tests.rest.events import EVENTS

pytestmark = pytest.mark.slow

EXAMPLE = Path(__file__).parents[2] / "examples" / "independent-three.json"
LIMITS = JobLimits(60.0, 0)

SOLVED = {
    "01": ["1 of 1 nights of the storm reserve at camp-2", "summit is planned for day 12"],
    "02": ["Next, on day 8: camp-2 to camp-3"],
    "08": ["descent reserve at camp-1", "6 fewer of kitchen/low"],
    "11": ["Let go: stoves_enough", "1 fewer of stove-gas"],
    "13": ["more fuel burnt than planned by kitchen"],
    "16": ["people change"],
    "17": ["summit is planned for day 10"],
    "18": ["1 of 2 nights of the storm reserve at camp-3"],
    "21": ["guest joins at camp-2", "descent reserve at camp-1"],
    "22": ["1 fewer of kitchen/low than planned, as counted"],
    "23": ["Next, on day 7: camp-2 to cache-2"],
    "24": ["Next, on day 7: camp-2 to cache-2"],
}
"""Events after which the party goes on, and what the answer has to say."""

REFUSED = {
    "03": "turn_round_stock_held",
    "06": "night_sets_held",
    "07": "nightly_kit_complete",
    "09": "night_sets_held",
    "10": "night_sets_held",
    "12": "fuel_survives_loss",
    "14": "shelter_survives_loss",
    "25": "communicators_of_two_kinds",
    "26": "pack_cap_held",
    "27": "party_kit_carried",
    "28": "pack_cap_held",
    "29": "shelter_survives_loss",
}
"""Events after which no plan keeps every rule, and a rule that says so."""


@cache
def _followed():
    """The request of the example and the plan that is followed."""
    request = json.loads(EXAMPLE.read_text(encoding="utf-8"))
    outcome = json.loads(solve_document(json.dumps(request).encode(), LIMITS, SILENT))
    assert outcome["outcome"] == "solved"
    return request, {name: outcome["plan"][name] for name in ("trips", "stock", "flights")}


@cache
def _answer(event: str):
    name = next(name for name in EVENTS if name.startswith(event))
    request, plan = _followed()
    document = with_state(request, plan, "plan_of_three", copy.deepcopy(EVENTS[name]))
    return json.loads(solve_document(json.dumps(document).encode(), LIMITS, SILENT))


@pytest.mark.parametrize("event", sorted(SOLVED))
def test_the_party_goes_on_and_is_told_how(event: str):
    """The rest is planned, its check has no finding, and the sentences say what matters."""
    answer = _answer(event)
    assert answer["outcome"] == "solved"
    assert answer["check"]["passed"]
    told = " ".join([*answer["rest"]["say"], *answer["rest"]["unexplained"]])
    for words in SOLVED[event]:
        assert words in told
    assert "You can sit" in answer["rest"]["say"][0]


def test_a_weak_person_is_relieved_where_needed_and_nowhere_else():
    """Nobody who is held to 18 kg carries more; each trip that was heavier changes for two people.

    One is the weak person, and the other takes over. How many people that is in all is said.
    """
    answer, (_, followed) = _answer("16"), _followed()
    totals = {
        (trip["day"], trip["step"]): load["total_kg"]
        for trip in answer["plan"]["trips"]
        for load in trip["loads"]
        if load["person_id"] == "third" and trip["day"] > 7
    }
    assert max(totals.values()) <= 18
    too_heavy = {
        (trip["day"], trip["step"])
        for trip in followed["trips"]
        for load in trip["loads"]
        if load["person_id"] == "third" and trip["day"] > 7 and load["total_kg"] > 18
    }
    changes = answer["rest"]["changes"]
    changed: dict[tuple[int, int], set[str]] = {}
    for change in changes:
        changed.setdefault((change["day"], change["step"]), set()).add(change["person_id"])
    assert changed.keys() == too_heavy != set()
    assert all("third" in people and len(people) == 2 for people in changed.values())
    people = {change["person_id"] for change in changes}
    said = f"{len(changes)} loads of {len(people)} people change."
    assert said in answer["rest"]["say"]


@pytest.mark.parametrize("event", sorted(REFUSED))
def test_the_party_is_told_why_it_cannot_go_on(event: str):
    """No plan keeps every rule; the rule is named, and so is who decides."""
    answer = _answer(event)
    assert answer["outcome"] == "infeasible"
    assert REFUSED[event] in [conflict["rule_id"] for conflict in answer["conflicts"]]
    assert answer["rest"]["say"][-1] == "Decide on the spot: wait, go down, or call for help."


def test_trips_that_were_made_stay_as_they_were():
    """Whatever the rest becomes, the days before the moment are those of the followed plan."""
    _, plan = _followed()
    for event in ("01", "16", "22"):
        answer = _answer(event)
        day = answer["rest"]["day"]
        before = [trip for trip in plan["trips"] if trip["day"] <= day]
        assert [t["loads"] for t in answer["plan"]["trips"][: len(before)]] == [
            t["loads"] for t in before
        ]


def test_a_limit_from_now_on_holds_from_now_on():
    """Somebody weak carries 18 kg at most on every trip to come, and what they carried before."""
    answer = _answer("16")
    loads = [
        (trip["day"], load["total_kg"])
        for trip in answer["plan"]["trips"]
        for load in trip["loads"]
        if load["person_id"] == "third"
    ]
    assert max(kg for day, kg in loads if day > 7) <= 18
