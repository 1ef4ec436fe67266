"""The nights that were spent, by the plan and by a report."""

from __future__ import annotations

from service.translate.read.trip_report import read_report
from service.translate.write.after.nights import Eaten, eaten_by_plan, eaten_in_fact
from service.translate.write.after.report import write_report
from solver.problem import NightSet
from tests.service.trip_home import CAN, OUTCOME, PLAN, REQUEST, kitchen, line, report, written


def test_nights_that_were_given_replace_those_of_the_plan():
    """2 nights of 2 people are 4 person-nights and 800 mL; the other kitchen keeps its 3."""
    answer = written(containers=[CAN], nights=[{"place": "camp", "nights": 2, "cook_group": "all"}])
    assert [(row.cook_group, row.planned, row.spent) for row in answer.nights] == [
        ("all", 6, 4),
        ("other", 3, 3),
    ]
    assert kitchen(answer).planned_ml == 800
    assert kitchen(answer).ratio == 2.0
    everybody = written(nights=[{"place": "camp", "nights": 5}])
    assert [row.spent for row in everybody.nights] == [10, 5]


def test_a_night_at_a_place_without_planned_nights_takes_its_set():
    """At the road all 2 of the kitchen eat the set of the road."""
    night_sets = REQUEST["menu"] | {
        "used_at": [{"place": "road", "set_id": "meal"}, {"place": "camp", "set_id": "meal"}]
    }
    stays = line(document=REQUEST | {"menu": night_sets})
    body = {"nights": [{"place": "road", "nights": 1, "cook_group": "all"}]}
    answer = write_report(read_report(stays, body))
    spent = {(row.cook_group, row.place): row.spent for row in answer.nights}
    assert spent == {("all", "camp"): 0, ("other", "camp"): 3, ("all", "road"): 2}


def test_the_first_plan_of_the_line_says_what_was_planned_first():
    """The first plan had one night; where it is deleted nothing is said."""
    first = OUTCOME | {"plan": PLAN | {"used": PLAN["used"][:2]}}
    answer = write_report(read_report(line(first_outcome=first), {}))
    assert [row.planned_first for row in answer.nights] == [2, 1]
    assert answer.say[0] == "Spent: 9 person-nights. The first plan had 3."
    cut = write_report(read_report(line(is_whole=False), {}))
    assert [row.planned_first for row in cut.nights] == [None, None]
    assert cut.say[0] == "Spent: 9 person-nights."


def test_the_margin_is_rounded_up_for_each_night():
    """3 people at 189 mL with 12 % are 635.04 mL, so 636 mL a night and 1272 in two."""
    its_set = NightSet("low", "all+green", 900, 0, 0, 2000, 189)
    eaten = Eaten("all+green", "camp", 3, 2, its_set)
    assert (eaten.person_nights, eaten.fuel_ml) == (6, 1134)
    assert eaten.fuel_with_margin_ml(12) == 1272
    assert eaten.kitchen_id == "all"


def test_without_nights_in_the_report_those_of_the_plan_were_spent():
    """Six meals: three nights of two groups."""
    assert eaten_in_fact(report()) == eaten_by_plan(report())
    assert len(eaten_by_plan(report())) == 6
