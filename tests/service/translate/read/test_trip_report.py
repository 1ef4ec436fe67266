"""What a report says is read against the plan: faults at their place, losses of earlier counts."""

from __future__ import annotations

import pytest

from service.errors import RequestFaults
from service.translate.read.gone_on_the_way import on_the_way
from service.translate.read.report_days import trips_of
from service.translate.read.report_facts import load_of
from service.translate.read.report_fuel import drawn_ml, planned_unopened
from service.translate.read.report_stores import examine_stores
from service.translate.read.trip_report import read_report
from tests.service.trip_home import OUTCOME, PLAN, line, report


def change(unit_id, count, place="camp"):
    """Units that a count found more or fewer."""
    return {"place": place, "unit_id": unit_id, "count": count}


def settled(*changes, left=()):
    """One settled count."""
    return {"changes": list(changes), "left": list(left)}


@pytest.mark.parametrize(
    ("body", "pointer", "code"),
    [
        ({"night_sets": [{"unit_id": "all/meals"}]}, "/night_sets/0/unit_id", "unknown_id"),
        ({"night_sets": [{"unit_id": "all/can"}]}, "/night_sets/0/unit_id", "unknown_id"),
        ({"night_sets": [{"unit_id": "all/meal", "bags": 9}]}, "/night_sets/0", ""),
        ({"night_sets": [{"unit_id": "all/storm", "bags": 1, "sets": 3}]}, "/night_sets/0", ""),
        (
            {
                "night_sets": [{"unit_id": "all/meal", "bags": 7}],
                "gone": [{"unit_id": "all/meal", "count": 2}],
            },
            "/night_sets/0",
            "",
        ),
        ({"night_sets": [{"unit_id": "all/meal"}] * 2}, "/night_sets/1/unit_id", "duplicate_id"),
        ({"containers": [{"unit_id": "all/tin"}]}, "/containers/0/unit_id", "unknown_id"),
        (
            {"containers": [{"unit_id": "all/can", "full": 1, "open": ["1 mL"], "empty": 2}]},
            "/containers/0",
            "",
        ),
        (
            {"containers": [{"unit_id": "all/can", "open": ["1 L", "1001 mL"]}]},
            "/containers/0/open/1",
            "",
        ),
        ({"gone": [{"unit_id": "all/can", "count": 4}]}, "/gone/0/count", ""),
        ({"gone": [{"unit_id": "rope"}]}, "/gone/0/unit_id", "unknown_id"),
        ({"spilt": [{"cook_group": "x", "amount": "1 L"}]}, "/spilt/0/cook_group", "unknown_id"),
        (
            {
                "containers": [{"unit_id": "all/can", "full": 2}],
                "spilt": [{"cook_group": "all", "amount": "1001 mL"}],
            },
            "/spilt/0/amount",
            "",
        ),
        ({"nights": [{"place": "hut", "nights": 1}]}, "/nights/0/place", "unknown_id"),
        (
            {"nights": [{"place": "camp", "nights": 1, "cook_group": "x"}]},
            "/nights/0/cook_group",
            "unknown_id",
        ),
        ({"hours": [{"day": 2, "time": "5 h"}]}, "/hours/0/day", "no_trip"),
        ({"hours": [{"day": 1, "step": 2, "time": "5 h"}]}, "/hours/0/day", "no_trip"),
        ({"hours": [{"day": 1, "time": "25 h"}]}, "/hours/0/time", "out_of_range"),
        ({"hours": [{"day": 1, "time": "5 h"}] * 2}, "/hours/1", "duplicate_id"),
        (
            {"loads": [{"person_id": "dan", "day": 1, "mass": "9 kg"}]},
            "/loads/0/person_id",
            "unknown_id",
        ),
        ({"loads": [{"person_id": "ann", "day": 3, "mass": "9 kg"}]}, "/loads/0/day", "no_trip"),
        ({"weighed": [{"unit_id": "axe", "mass": "1 kg"}]}, "/weighed/0/unit_id", "unknown_id"),
        ({"weighed": [{"unit_id": "rope", "mass": "0 g"}]}, "/weighed/0/mass", "out_of_range"),
        ({"remarks": ["x" * 501]}, "/remarks/0", "too_long"),
        ({"remarks": [""]}, "/remarks/0", "too_short"),
    ],
)
def test_a_fault_of_a_report_is_told_at_its_place(body, pointer, code):
    """What the plan does not have, or more than was taken, is refused with a pointer."""
    with pytest.raises(RequestFaults) as refused:
        report(**body)
    expected = code if "_" in code else "more_than_there_is"
    assert [(fault.pointer, fault.code) for fault in refused.value.faults] == [(pointer, expected)]


def test_all_faults_are_told_at_once():
    """Faults of stores and of days come together."""
    with pytest.raises(RequestFaults) as refused:
        report(containers=[{"unit_id": "all/can", "full": 4}], hours=[{"day": 3, "time": "5 h"}])
    assert [fault.pointer for fault in refused.value.faults] == ["/containers/0", "/hours/0/day"]


def test_as_many_as_were_taken_may_come_home():
    """Exactly what was taken is no fault: nothing was eaten or burnt then."""
    read = report(
        night_sets=[{"unit_id": "all/storm", "bags": 1, "sets": 2}],
        containers=[{"unit_id": "all/can", "full": 3}],
    )
    assert drawn_ml(read, "all") == 0


def test_fuel_of_kinds_that_are_not_named_is_left_as_planned():
    """Of two cans one is full and one has 340 mL, 238 g at 0.7 kg/L: 660 mL are drawn."""
    read = report()
    assert planned_unopened(read, read.containers()["other/can"]) == 1
    assert drawn_ml(read, "other") == 660


def test_what_was_said_to_be_lost_is_gone_and_what_was_only_counted_is_not():
    """2 of 3 fewer were said to be lost; the third was counted away and counts as used."""
    state = {
        "lost": [{"place": "camp", "unit_id": "all/meal", "count": 2}],
        "counts": [{"place": "camp", "unit_id": "all/meal", "count": 4}],
    }
    found = on_the_way([settled(change("all/meal", -3))], {0: state})
    assert found.gone == {"all/meal": 2}
    assert found.otherwise == {"all/meal": -1}


def test_what_changed_without_being_counted_is_gone_or_brought():
    """Who went down took 2, and who joined brought 1; nobody counted those units."""
    found = on_the_way(
        [settled(change("all/meal", -2), change("all/can", 1, "road"))], {0: {"evacuation": {}}}
    )
    assert found.gone == {"all/meal": 2}
    assert found.brought == {"all/can": 1}
    assert found.otherwise == {}


def test_what_stands_elsewhere_than_planned_is_neither():
    """One fewer at the camp and one more at the road are no difference."""
    counts = [
        {"place": "camp", "unit_id": "all/can", "count": 0},
        {"place": "road", "unit_id": "all/can", "count": 1},
    ]
    found = on_the_way(
        [settled(change("all/can", -1), change("all/can", 1, "road"))], {0: {"counts": counts}}
    )
    assert (found.gone, found.brought, found.otherwise) == ({"all/can": 0}, {"all/can": 0}, {})


def test_what_people_took_along_is_gone_where_it_was_counted_too():
    """1 of 2 fewer went with a person who left; the count itself finds one fewer."""
    left = [{"person_id": "cho", "place": "camp"}]
    state = {
        "left": [{"person_id": "cho", "takes": [{"unit_id": "all/meal"}]}],
        "joins": [{"place": "road", "brings": [{"unit_id": "all/can"}]}],
        "counts": [
            {"place": "camp", "unit_id": "all/meal", "count": 1},
            {"place": "road", "unit_id": "all/can", "count": 1},
        ],
    }
    changes = [change("all/meal", -2), change("all/can", 1, "road")]
    found = on_the_way([settled(*changes, left=left)], {0: state})
    assert found.gone["all/meal"] == 1
    assert found.brought["all/can"] == 1
    assert found.otherwise == {"all/meal": -1}


def test_counts_whose_state_is_deleted_count_as_used():
    """Of the older of two counts nobody knows any more what was lost."""
    counts = [settled(change("all/meal", -1)), settled(change("all/meal", -2))]
    found = on_the_way(counts, {1: {}})
    assert found.gone == {"all/meal": 2}
    assert found.otherwise == {"all/meal": -1}


def test_a_count_whose_state_is_deleted_has_no_other_ones_state():
    """Of three counts the plan of the middle one was deleted; the others say what was lost."""
    counts = [settled(change("all/meal", -number)) for number in (1, 2, 4)]
    found = on_the_way(counts, {0: {}, 2: {}})
    assert found.gone == {"all/meal": 5}
    assert found.otherwise == {"all/meal": -2}


def test_hours_that_fit_two_parties_need_a_person():
    """Two parties leave at one step over different legs: the report must say which it is."""
    other = PLAN["trips"][0] | {"leg_id": "leg-2", "loads": PLAN["trips"][0]["loads"][:1]}
    plan = PLAN | {"trips": [PLAN["trips"][0] | {"loads": PLAN["trips"][0]["loads"][1:]}, other]}
    parted = line(outcome=OUTCOME | {"plan": plan})
    with pytest.raises(RequestFaults) as refused:
        read_report(parted, {"hours": [{"day": 1, "time": "5 h"}]})
    assert [(one.pointer, one.code) for one in refused.value.faults] == [("/hours/0", "missing")]
    named = {"day": 1, "time": "5 h", "person_id": "ann"}
    read = read_report(parted, {"hours": [named]})
    assert [trip["leg_id"] for trip in trips_of(read, read.asked.hours[0])] == ["leg-2"]


def test_a_load_is_that_of_the_step_or_of_the_first_trip():
    """Everybody makes one trip on days 1 and 4."""
    read = report()
    assert load_of(read, "ann", 1, None) == (PLAN["trips"][0], PLAN["trips"][0]["loads"][0])
    assert load_of(read, "ann", 4, 1) == (PLAN["trips"][1], PLAN["trips"][1]["loads"][0])
    assert load_of(read, "ann", 4, 2) is None


def test_a_report_in_order_has_no_faults():
    """Examined again, its stores have nothing against them."""
    read = report(containers=[{"unit_id": "all/can", "full": 1, "open": ["1 L"], "empty": 1}])
    examine_stores(read)
    assert read.faults == []
