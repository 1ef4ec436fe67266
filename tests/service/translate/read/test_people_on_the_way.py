"""People who left, joined or go down, read from a state into the problem."""

from dataclasses import replace

import pytest

from api_schema.replan import ReplanRequest
from service.errors import RequestFaults
from service.translate.read.people_on_the_way import (
    as_it_became,
    days_of,
    people_faults,
    read_hurt,
    with_people,
)
from solver.problem import Change, History
from tests.rules.worlds import item, person, world

AT = {"day": 1, "moment": "evening"}
REQUEST = {
    "calendar": [["strip", "c1"], {"teams": {"r1": ["c1", "strip"]}}],
    "roster": [{"person_id": "m1", "rope_team": "r1"}, {"person_id": "m2", "rope_team": "r2"}],
}


def _state(**more):
    return ReplanRequest.model_validate({"at": AT, **more})


def _two():
    gear = (item("bag", owner_id="m2"),)
    return world("strip-c1 c1 c1-strip", people=(person("m1"), person("m2")), gear=gear)


def test_days_name_the_rope_teams_of_those_who_left():
    """A calendar that names only those who go on is completed, so that it can be read."""
    request = {**REQUEST, "roster": list(REQUEST["roster"])}
    with_people(request, _state(calendar=[["c1"]]), {"joins": []})
    assert request["calendar"][1]["teams"] == {"r1": ["c1", "strip"], "r2": ["c1", "strip"]}


def test_who_joins_is_on_the_roster():
    """The person stands behind the others, as the caller wrote them."""
    guest = {"person_id": "guest", "pack_cap": "20 kg"}
    request = {"calendar": [["c1"]], "roster": []}
    wire = {"joins": [{"person": guest, "place": "c1"}]}
    with_people(request, _state(**wire), wire)
    assert request["roster"] == [guest]


def test_a_state_in_which_somebody_left():
    """They are on the roster no more, and their gear is gone with them."""
    problem = as_it_became(_two(), _state(left=[{"person_id": "m2"}]), History(1), None)
    assert [p.person_id for p in problem.roster] == ["m1"]
    assert [(p.person_id, p.presence.place_id) for p in problem.left] == [("m2", "c1")]
    assert problem.gear == ()


def test_counts_that_were_settled_come_before_this_one():
    """Changes, fuel, people and sleds of an earlier count are in the history behind the new one."""
    settled = {
        "day": 1,
        "after_night": False,
        "changes": [{"place": "c1", "unit_id": "g1/meal", "count": -2}],
        "burnt": [{"cook_group": "g1", "fuel_ml": 30}],
        "left": [{"person_id": "m2", "place": "c1"}],
        "joined": [{"person_id": "m1", "place": "c1"}],
        "sleds_lost": [],
    }
    now = as_it_became(_two(), _state(), History(2), {"settled": [settled]})
    assert now.history is not None
    assert now.history.before is not None
    assert now.history.before.changes == (Change("c1", "g1/meal", -2),)
    assert now.history.before.burnt_ml == (("g1", 30),)
    assert now.history.lost("g1/meal") == 2
    assert now.history.lost_then("g1/meal") == 0
    assert [one.day for one in now.history.chain] == [1, 2]
    assert now.left[0].presence.last_day == 1
    assert now.roster[0].presence.first_day == 2


def test_who_left_before_cannot_leave_again():
    """The fault stands at the person."""
    settled = {"settled": [{"left": [{"person_id": "m2", "place": "c1"}]}]}
    with pytest.raises(RequestFaults) as faulty:
        people_faults(REQUEST, _state(left=[{"person_id": "m2"}]), settled)
    assert [f.pointer for f in faulty.value.faults] == ["/left/0/person_id"]
    people_faults(REQUEST, _state(left=[{"person_id": "m2"}]), None)


def test_somebody_who_goes_down_is_read_with_days_and_litter():
    """Places by day, a litter rounded up to whole grams, and visits of all rope teams."""
    wish = {"person_id": "m1", "how": "hauled", "days": [["c1", "strip"]], "litter": "5.5 kg"}
    hurt = read_hurt(_state(evacuation=wish))
    assert hurt is not None
    assert (hurt.how, hurt.litter_g, hurt.companions) == ("hauled", 5500, None)
    days = days_of(_two(), hurt)
    assert days is not None
    assert days[0].visits[0].places == ("c1", "strip")
    assert days_of(_two(), replace(hurt, days=None)) is None
    assert read_hurt(_state()) is None
