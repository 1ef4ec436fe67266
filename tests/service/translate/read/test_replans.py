"""A counted state as it changes the request, and a stored plan as the solver reads it."""

import copy

import pytest

from api_schema.replan import CountedUnitsRequest
from service.errors import RequestFaults
from service.translate.read import counted_state
from service.translate.read.replans import with_state
from service.translate.read.stored_plan import read_stored_plan
from solver.plan import Load, NightStock, Stowed, TripLoads

REQUEST = {
    "calendar": [
        ["road", "camp-1"],
        {"teams": {"a": ["camp-1", "camp-2"], "b": ["camp-1"]}},
        {"places": ["camp-2", "camp-1"], "note": "down"},
        ["camp-1", "road"],
    ],
    "roster": [{"person_id": "lead"}, {"person_id": "second"}],
    "evacuations": [{"person_id": "lead", "day": 4}, {"person_id": "lead", "day": 1}],
    "options": {"near_plan": {"plan_id": "x"}, "seed": 3},
}


def _with(day, moment="evening", **more):
    state = {"at": {"day": day, "moment": moment}, **more}
    return with_state(REQUEST, {}, "plan_x", state)["request"]


@pytest.mark.parametrize(
    ("day", "here"),
    [
        (1, {"note": "waiting", "places": ["camp-1"]}),
        (2, {"note": "waiting", "teams": {"a": ["camp-2"], "b": ["camp-1"]}}),
        (3, {"note": "waiting", "places": ["camp-1"]}),
    ],
)
def test_days_waited_stand_where_people_slept(day, here):
    """Two days without travel come after the day, whatever its form, team by team."""
    before = copy.deepcopy(REQUEST)
    calendar = _with(day, wait_nights=2)["calendar"]
    assert calendar[day : day + 2] == [here, here]
    assert len(calendar) == 6
    assert before == REQUEST


def test_a_morning_comes_after_the_night_before():
    """Days waited from the morning of day 3 come after day 2."""
    assert _with(3, "morning", wait_nights=1)["calendar"][2]["note"] == "waiting"


def test_days_that_are_asked_for_move_along():
    """An evacuation asked for a later day is asked for as many days later."""
    assert [one["day"] for one in _with(2, wait_nights=2)["evacuations"]] == [6, 1]


def test_a_weak_person_is_limited_and_relieved():
    """The limit and its reason stand with the person, and kit may ride with the rope team."""
    limit = {"person_id": "second", "load_limit": "8 kg", "reason": "ankle"}
    lead, second = _with(1, people=[limit])["roster"]
    assert lead == {"person_id": "lead"}
    assert second["load_limit"] == "8 kg"
    assert (second["load_limit_reason"], second["kit_to_rope_team"]) == ("ankle", True)


def test_a_former_plan_is_named_no_more():
    """The plan that is followed is the one to stay near to; other options stay."""
    assert _with(1)["options"] == {"seed": 3}


def test_a_state_that_is_none_is_refused():
    """Wire faults of a state are found before anything is stored."""
    with pytest.raises(RequestFaults) as refused:
        with_state(REQUEST, {}, "plan_x", {"at": {"day": 0}})
    assert {fault.pointer for fault in refused.value.faults} >= {"/at/day"}


@pytest.mark.parametrize(
    ("unit_id", "given", "counts"),
    [
        ("all/low", {"count": 3}, 3),
        ("all/low", {"low": 2, "high": 5}, 2),
        ("trash/camp-1/1-1", {"low": 0, "high": 1}, 1),
        ("all/can/empty-2", {"low": 0, "high": 1}, 1),
        ("all/low", {"low": 5, "high": 2}, None),
        ("all/low", {"count": 1, "low": 1}, None),
        ("all/low", {}, None),
    ],
)
def test_low_for_what_is_used_high_for_what_is_carried(unit_id, given, counts):
    """An uncertain count is read to the safe side."""
    one = CountedUnitsRequest(place="camp-1", unit_id=unit_id, **given)
    assert counted_state._counted(one) == counts


def test_a_stored_plan_is_read_to_the_gram():
    """Kilograms with three decimals are whole grams again, litres millilitres."""
    unit = {"unit_id": "tent", "count": 1, "each_kg": 3.917, "each_l": 9.001}
    load = {"person_id": "m1", "water_kg": 1.8, "lunch_kg": 0.352, "sled_id": None}
    plan = read_stored_plan(
        {
            "trips": [
                {
                    "day": 1,
                    "step": 1,
                    "from": "a",
                    "to": "b",
                    "loads": [{**load, "pack": [unit], "sled": []}],
                }
            ],
            "stock": [{"day": 0, "place": "a", "units": [unit]}],
            "flights": [],
        }
    )
    tent = Stowed("tent", 1, 3917, 9001)
    assert plan.trips == (TripLoads(1, 1, "a", "b", (Load("m1", 1800, 352, (tent,)),)),)
    assert plan.stock == (NightStock(0, "a", (tent,)),)
