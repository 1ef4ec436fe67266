"""People with a menu of their own: how a request says it, and what it can get wrong."""

from copy import deepcopy

import pytest

from service.errors import RequestFaults
from service.translate.read.guests import (
    eaters,
    group_id,
    is_guest,
    kitchen_of,
    known_menus,
    menu_of,
    of_kitchen,
)
from service.translate.read.plan_checks import read_plan_check
from service.translate.read.requests import read_plan_request
from service.translate.write.outcomes import write_outcome
from solver.checker import check
from solver.outcome import Limits, Solved
from solver.pipeline import plan
from tests.service.one_night_out import REQUEST
from tests.service.wire import wire

SET = {
    "set_id": "meal",
    "mass": "900 g",
    "volume": "2 L",
    "fuel": "150 mL",
    "packaging": "60 g",
    "contains": ["milk"],
}
OWN = SET | {"menu": "vegetarian", "mass": "850 g", "contains": [], "suits_diets": ["vegetarian"]}


def document(*sets, second=(), **parts):
    """The request of one night for two, of whom the second has facts of their own."""
    asked = deepcopy(REQUEST)
    first = asked["roster"][0]
    asked["roster"] = [first, first | {"person_id": "second"} | dict(second)]
    asked["menu"] = {"night_sets": list(sets)}
    return asked | parts


BOTH = document(SET, OWN, second={"menu": "vegetarian", "avoids": ["milk"]})


def faults(asked):
    """Pointer and code of each fault."""
    with pytest.raises(RequestFaults) as caught:
        read_plan_request(asked)
    return [(fault.pointer, fault.code) for fault in caught.value.faults]


def test_a_name_holds_kitchen_and_menu():
    """`all+vegan` is the guests of `all` with the menu `vegan`, `all` is no guest."""
    assert group_id("all", "vegan") == "all+vegan"
    assert group_id("all", None) == "all"
    assert [(kitchen_of(g), menu_of(g), is_guest(g)) for g in ("all+vegan", "all")] == [
        ("all", "vegan", True),
        ("all", None, False),
    ]


def test_a_set_is_eaten_by_its_menu_in_one_kitchen_or_in_all():
    """Without a menu it is for those who have none, and an unknown menu eats as they do."""
    groups, known = ("a", "a+vegan", "b+vegan", "b+odd"), frozenset({"vegan"})
    assert eaters(None, "vegan", groups, known) == ("a+vegan", "b+vegan")
    assert eaters("b", "vegan", groups, known) == ("b+vegan",)
    assert eaters(None, None, groups, known) == ("a", "b+odd")
    assert of_kitchen("a", groups) == ("a", "a+vegan")
    assert known_menus(None) == frozenset()


def test_a_person_with_a_menu_is_a_guest_of_the_kitchen():
    """The second eats bags alone, of another mass, on the fuel of the first's kitchen."""
    problem = read_plan_request(BOTH).problem
    own, guest = problem.cook_groups
    assert (own.cook_group_id, guest.cook_group_id, guest.kitchen_of) == (
        "all",
        "all+vegetarian",
        "all",
    )
    assert own.containers
    assert not guest.containers
    assert [p.cook_group_id for p in problem.roster] == ["all", "all+vegetarian"]
    masses = {s.unit_id: s.gross_g for s in problem.night_sets}
    assert masses == {"all/meal": 900, "all+vegetarian/meal": 850}


def test_a_menu_that_no_set_is_of_is_one_fault():
    """It stands at the person, with or without a menu in the request."""
    told = [("/roster/1/menu", "unknown_id")]
    assert faults(document(SET, second={"menu": "vegan"})) == told
    generic = document(second={"menu": "vegan"})
    del generic["menu"]
    assert faults(generic) == told


def test_a_kitchen_where_all_have_menus_is_one_fault():
    """Somebody of a kitchen eats what has no menu."""
    asked = document(SET, OWN, second={"menu": "vegetarian"})
    asked["roster"][0]["menu"] = "vegetarian"
    assert faults(asked) == [("/roster", "nobody_cooks")]


def test_only_who_eats_a_set_must_know_what_is_in_it():
    """Who avoids milk and has a menu asks nothing of the others' set, who reacts to milk does."""
    common = {name: value for name, value in SET.items() if name != "contains"}
    careful = document(common, OWN, second={"menu": "vegetarian", "avoids": ["milk"]})
    assert read_plan_request(careful).problem.night_sets
    reacts = document(common, OWN, second={"menu": "vegetarian", "reacts_to": ["milk"]})
    # The field is not there, so that the pointer leads to where it is missing.
    assert faults(reacts) == [("/menu/night_sets/0", "contents_not_said")]


def test_a_reserve_of_a_kitchen_is_held_for_each_menu():
    """A named set that a menu does not have is replaced by its storm set."""
    storm = OWN | {"set_id": "dry", "storm": True, "mass": "600 g"}
    asked = document(
        SET,
        OWN,
        storm,
        second={"menu": "vegetarian"},
        reserves=[{"place": "camp", "nights": 1, "set_id": "meal", "cook_group": "all"}],
    )
    held = [(r.cook_group_id, r.set_id) for r in read_plan_request(asked).problem.reserves]
    assert held == [("all", "meal"), ("all+vegetarian", "meal")]
    other = storm | {"set_id": "spare", "menu": None}
    asked["menu"]["night_sets"].append(other)
    asked["reserves"][0]["set_id"] = "spare"
    held = [(r.cook_group_id, r.set_id) for r in read_plan_request(asked).problem.reserves]
    assert held == [("all", "spare"), ("all+vegetarian", "dry")]


def test_a_set_is_named_for_a_place_and_a_menu():
    """`used_at` without a menu is for those without one."""
    other = OWN | {"set_id": "other"}
    second = {"menu": "vegetarian"}
    used = [{"place": "camp", "set_id": "other", "menu": "vegetarian"}]
    asked = document(SET, OWN, other, second=second)
    asked["menu"]["used_at"] = used
    groups = read_plan_request(asked).problem.cook_groups
    assert [dict(g.set_at)["camp"] for g in groups] == ["meal", "other"]


def test_containers_are_for_kitchens():
    """A container for the guests is for a cook group that there is not."""
    can = {"container_id": "can", "content": "1 L", "tare": "100 g", "volume": "1.2 L"}
    asked = BOTH | {"fuel": {"containers": [can | {"cook_group": "all+vegetarian"}]}}
    assert [pointer for pointer, _ in faults(asked)] == ["/fuel/containers/0/cook_group"]


def test_an_answer_tells_each_menus_stock_and_takes_its_plan_back():
    """Guests have nights of food and none of fuel, which the kitchen has for both."""
    read = read_plan_request(BOTH | {"sleds": []})
    outcome = plan(read.problem, Limits(wall_seconds=20.0, workers=1, seed=1))
    assert isinstance(outcome, Solved)
    answer = wire(write_outcome(outcome, read))
    at_start = next(e for e in answer["plan"]["stock"] if e["day"] == 0)
    assert [
        (g["cook_group"], g["nights_of_food"], g["nights_of_fuel"], g["fuel_ml"])
        for g in at_start["cook_groups"]
    ] == [("all", 1.0, None, 1000), ("all+vegetarian", 1.0, None, 0)]
    used = [(u["cook_group"], u["people"], u["fuel_ml"]) for u in answer["plan"]["used"]]
    assert used == [("all", 1, 165), ("all+vegetarian", 1, 165)]
    camp = next(e for e in answer["plan"]["stock"] if e["day"] == 1 and e["place"] == "camp")
    assert [(g["cook_group"], g["nights_of_fuel"]) for g in camp["cook_groups"]] == [
        ("all", round((1000 - 330) / 330, 2)),
    ]
    sent = {"request": BOTH | {"sleds": []}, "plan": answer["plan"]}
    back, edited = read_plan_check(sent)
    assert (edited.trips, edited.stock) == (outcome.plan.trips, outcome.plan.stock)
    assert check(back.problem, edited).findings == ()
