"""The table of nights, from the plan that was written by hand."""

import copy

from service.reports.paper.night_table import COLUMNS, night_table
from tests.service.reports.paper.two_days import OUTCOME, unit


def test_each_thing_of_a_night_has_a_row_with_who_brought_it():
    """Pots and stoves are of all, food and fuel of the kitchen; what is alone stands once."""
    outcome = copy.deepcopy(OUTCOME)
    made = outcome["plan"]
    made["days"] = [{"day": day, "places": {"rope-1": ["road", "camp"]}} for day in (1, 2)]
    for day in (1, 2):
        units = [unit("ann/bag"), unit("all/low", 3)]
        made["stock"].append({"day": day, "place": "cache", "cook_groups": [], "units": units})
    table = night_table(outcome)
    assert table.columns == COLUMNS
    assert table.rows == (
        (2, "camp", None, "stove", "stove", 1, "today by bob"),
        (2, "camp", None, "pot", "pot", 1, "today by bob"),
        (2, "camp", "all", "food", "night set low", 2, "today by bob"),
        (2, "camp", "all", "fuel", "can, open", 1, "today by ann"),
        (1, "cache", None, "left alone", "bag of ann", 1, None),
        (1, "cache", None, "left alone", "night set low", 3, None),
    )


def test_what_came_on_two_days_says_so_without_the_thing():
    """The cell has the words after the thing: how many when by whom."""
    outcome = copy.deepcopy(OUTCOME)
    made = outcome["plan"]
    made["trips"][1] |= {"from": "cache", "to": "camp"}
    made["stock"][0]["units"][0]["count"] = 2
    (stove,) = (row for row in night_table(outcome).rows if row[3] == "stove")
    assert stove[5:] == (2, "1 brought today by bob, 1 on day 1 by ann")
