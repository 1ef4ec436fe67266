"""What a report says first, and what it repeats."""

from __future__ import annotations

from service.translate.write.after.report import write_report
from service.translate.write.after.say import say
from tests.service.trip_home import CAN, report, written

MORE_THAN_WITH_THE_MARGIN = (
    "Fuel of all: 1600 mL used, 1200 mL planned without the margin (1.33 times), in 6 "
    "person-nights. That is more than the plan had with its margin."
)
THREE_THAT_SAY_LITTLE = (
    "The next request may take 3 rates from here. 3 of them come from so few nights or trips "
    "that they say little."
)


def test_remarks_come_back():
    """They are repeated as they were sent."""
    assert written(remarks=["Cooked twice."]).remarks == ["Cooked twice."]


def test_a_report_says_what_a_leader_should_know_first():
    """Nights, fuel of each kitchen, food, hours, loads, and how sure the rates are."""
    answer = written(
        containers=[CAN],
        night_sets=[{"unit_id": "all/meal", "bags": 3}],
        hours=[{"day": 1, "time": "6 h"}],
        loads=[{"person_id": "ann", "day": 1, "mass": "22 kg"}],
    )
    assert list(say(answer)) == answer.say
    assert answer.say == [
        "Spent: 9 person-nights. The first plan had 9.",
        MORE_THAN_WITH_THE_MARGIN,
        "Fuel of other: not counted.",
        "Food that was counted: 5 night sets used, 6 planned for these nights, 3 came home.",
        "Trips that were measured took 1.20 times the planned hours.",
        "Loads that were weighed came to 1.10 times the planned loads.",
        THREE_THAT_SAY_LITTLE,
    ]


def test_fuel_within_the_margin_is_no_more_than_planned():
    """1300 mL are more than 1200 without the margin, and less than 1320 with it."""
    answer = write_report(report(containers=[CAN | {"open": ["700 mL"]}]))
    assert answer.say[1].endswith("in 6 person-nights.")
