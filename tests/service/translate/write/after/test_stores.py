"""Food and fuel of a report after an expedition, added up by hand."""

from __future__ import annotations

from service.translate.read.trip_report import read_report
from service.translate.write.after.report import write_report
from service.translate.write.after.stores import ratio
from tests.service.trip_home import CAN, OUTCOME, kitchen, line, written


def test_fuel_is_what_did_not_come_home():
    """3 cans of 1 L less 1 full and 400 mL are 1600 mL; 6 person-nights of 200 mL are 1200."""
    fuel = kitchen(written(containers=[CAN]))
    assert (fuel.used_ml, fuel.planned_ml, fuel.planned_with_margin_ml) == (1600, 1200, 1320)
    assert (fuel.person_nights, fuel.nights) == (6, 3)
    assert (fuel.planned_ml_per_person_night, fuel.used_ml_per_person_night) == (200.0, 266.7)
    assert fuel.ratio == 1.3333


def test_fuel_per_litre_is_by_the_water_that_the_plan_knows():
    """6 person-nights at 3 + 1 L are 24 L: 50 mL a litre planned, 66.7 used."""
    fuel = kitchen(written(containers=[CAN]))
    assert (fuel.water_l, fuel.planned_ml_per_litre, fuel.used_ml_per_litre) == (24.0, 50.0, 66.7)
    dry = line(outcome=OUTCOME | {"requirements": OUTCOME["requirements"][:1]})
    assert kitchen(write_report(read_report(dry, {"containers": [CAN]}))).water_l is None


def test_spilt_fuel_and_cans_that_are_gone_are_not_burnt():
    """Of 2600 mL that did not come home a can of 1000 is gone and 100 ran out: 1500 burnt."""
    answer = written(
        containers=[{"unit_id": "all/can", "open": ["400 mL"]}],
        gone=[{"unit_id": "all/can"}],
        spilt=[{"cook_group": "all", "amount": "100 mL"}],
    )
    assert kitchen(answer).used_ml == 3000 - 1000 - 400 - 100
    row = answer.containers[0]
    assert (row.taken, row.gone, row.unopened, row.opened) == (3, 1, 0, 2)


def test_containers_that_nobody_accounts_for_are_counted():
    """Of 3 cans 1 came home full, 1 open and none empty: 1 is not accounted for."""
    row = written(containers=[CAN | {"empty": 0}]).containers[0]
    assert (row.planned_unopened, row.unopened, row.opened, row.not_accounted) == (1, 1, 2, 1)
    assert written(containers=[CAN]).containers[0].not_accounted == 0


def test_a_kitchen_that_nobody_counted_has_no_use():
    """Without a container of it, the fuel used is not known and gives no rate."""
    answer = written(containers=[CAN])
    assert kitchen(answer, "other").used_ml is None
    assert answer.containers[1].opened is None
    assert "Fuel of other: not counted." in answer.say
    assert not written().rates
    assert "Nothing was counted or measured from which a rate follows." in written().say


def test_food_is_what_was_taken_less_what_is_gone_and_home():
    """8 sets less 1 gone and 3 home are 4 used, of 6 planned; bags of 2 count twice."""
    answer = written(
        night_sets=[
            {"unit_id": "all/meal", "bags": 3},
            {"unit_id": "all/storm", "bags": 1, "sets": 1},
        ],
        gone=[{"unit_id": "all/meal"}],
    )
    meal, other, storm = answer.night_sets
    assert (meal.taken, meal.planned, meal.gone, meal.home, meal.used) == (8, 6, 1, 3, 4)
    assert meal.ratio == 0.6667
    assert (storm.taken, storm.planned, storm.home, storm.used) == (4, 0, 3, 1)
    assert storm.ratio is None
    assert (other.home, other.used, other.ratio) == (None, None, None)


def test_counts_of_the_line_are_told_and_losses_do_not_count_as_eaten():
    """1 set was said to be lost and 1 was counted away: 8 - 1 - 2 at home are 5 used."""
    count = {"changes": [_change("all/meal", -2), _change("all/can/empty-1", -1)], "left": []}
    state = {
        "lost": [
            {"place": "camp", "unit_id": "all/meal"},
            {"place": "camp", "unit_id": "all/can/open-1"},
        ],
        "counts": [{"place": "camp", "unit_id": "all/meal", "count": 1}],
    }
    counted = line(outcome=OUTCOME | {"rest": {"settled": [count]}}, states={0: state})
    body = {"night_sets": [{"unit_id": "all/meal", "bags": 2}], "containers": [CAN | {"empty": 0}]}
    answer = write_report(read_report(counted, body))
    meal = answer.night_sets[0]
    assert (meal.gone, meal.home, meal.used) == (1, 2, 5)
    assert answer.containers[0].not_accounted == 0
    assert [words.split(" were ")[0] for words in answer.counted_otherwise] == [
        "1 fewer of all/meal",
        "1 opened of all/can",
    ]


def _change(unit_id, count):
    return {"place": "camp", "unit_id": unit_id, "count": count}


def test_nothing_is_no_multiple_of_anything():
    """Where nothing was planned, or nothing is known, there is no ratio."""
    assert (ratio(None, 1), ratio(1, None), ratio(1, 0), ratio(1, 3)) == (None, None, None, 0.3333)
