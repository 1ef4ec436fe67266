"""Who brought what stands at a place on a night, of alike things as well."""

import copy

import pytest

from service.reports.paper.origins import Lot, Origins, origin_words
from service.reports.paper.sheet_lines import Sheet
from tests.service.reports.paper.two_days import OUTCOME, known, load, trip, unit

CAN = "all/can"


def night(day: int, place: str, **counts: int) -> dict:
    """The stock of a place after a night; `can` and `open` stand for their unit ids."""
    ids = {"can": CAN, "open": f"{CAN}/open-1", "second": f"{CAN}/open-2"}
    units = [unit(ids[name], count) for name, count in counts.items()]
    return {"day": day, "place": place, "cook_groups": [], "units": units}


def plan(trips: list[dict], stock: list[dict]) -> dict:
    """A plan of trips and nights."""
    return {"trips": trips, "stock": stock}


def test_what_is_brought_today_is_told_apart_from_what_is_there():
    """One of five cans came today, with bob; the others were there from the start."""
    start, after = night(0, "road", can=5), night(1, "road", can=5)
    out = trip(1, 1, ("road", "cache"), load("bob", unit(CAN)))
    back = trip(1, 2, ("cache", "road"), load("bob", unit(CAN)))
    lots = Origins(plan([out, back], [start, after])).there(1, "road", CAN)
    assert lots == (Lot(1, "bob", 1),)
    words = origin_words("5 x can", 5, lots, tonight=1)
    assert words == "5 x can: 1 brought today by bob, 4 here before"


def test_a_kitchen_does_not_say_that_one_brought_all():
    """Of eight bottles in the kitchen of a night, the three of ann and the five before stand apart.

    Until now the line named whoever came last for all of them.
    """
    outcome = copy.deepcopy(OUTCOME)
    made = outcome["plan"]
    made["units"].append(known("all/bottle", "1 L bottle", "fuel", cook_group="all"))
    made["trips"][1]["loads"][1]["pack"].append(unit("all/bottle", 5))
    made["trips"][1] |= {"from": "cache", "to": "camp"}
    made["trips"][2]["loads"][0]["pack"].append(unit("all/bottle", 3))
    made["stock"][0]["units"].append(unit("all/bottle", 8))
    lines = " ".join(" ".join(Sheet(outcome).night(2)).split())
    assert "8 x 1 L bottle: 3 brought today by ann, 5 on day 1 by bob" in lines
    assert "food: 2 x night set low, brought today by bob fuel:" in lines


def test_who_takes_some_away_takes_their_own_first():
    """Ann and bob brought two each; bob takes two away again, and those of ann are left."""
    trips = [
        trip(1, 1, ("road", "camp"), load("ann", unit(CAN, 2)), load("bob", unit(CAN, 2))),
        trip(2, 1, ("camp", "hut"), load("bob", unit(CAN, 2))),
    ]
    stock = [night(1, "camp", can=4), night(2, "camp", can=2), night(2, "hut", can=2)]
    origins = Origins(plan(trips, stock))
    assert origins.there(1, "camp", CAN) == (Lot(1, "ann", 2), Lot(1, "bob", 2))
    assert origins.there(2, "camp", CAN) == (Lot(1, "ann", 2),)
    assert origins.there(2, "hut", CAN) == (Lot(2, "bob", 2),)


def test_what_came_first_is_used_first_and_an_opened_can_was_once_closed():
    """A can of day 1 is opened on day 2, one of day 2 on day 3; each is still whose it was."""
    trips = [
        trip(1, 1, ("road", "camp"), load("ann", unit(CAN))),
        trip(2, 1, ("road", "camp"), load("bob", unit(CAN, 2))),
    ]
    stock = [
        night(1, "camp", can=1),
        night(2, "camp", can=2, open=1),
        night(3, "camp", can=1, second=1),
    ]
    origins = Origins(plan(trips, stock))
    assert origins.used(2, "camp", CAN, 1) == (Lot(1, "ann", 1),)
    assert origins.there(2, "camp", f"{CAN}/open-1") == (Lot(1, "ann", 1),)
    assert origins.there(2, "camp", CAN) == (Lot(2, "bob", 2),)
    assert origins.there(3, "camp", f"{CAN}/open-2") == (Lot(2, "bob", 1),)
    assert origins.there(3, "camp", CAN) == (Lot(2, "bob", 1),)
    assert origins.there(3, "elsewhere", CAN) == ()


def test_two_cans_opened_on_one_night_are_two_peoples():
    """Each opened can takes one of the closed ones that are gone."""
    both = trip(1, 1, ("road", "camp"), load("ann", unit(CAN)), load("bob", unit(CAN)))
    origins = Origins(plan([both], [night(1, "camp", open=1, second=1)]))
    assert origins.there(1, "camp", f"{CAN}/open-1") == (Lot(1, "ann", 1),)
    assert origins.there(1, "camp", f"{CAN}/open-2") == (Lot(1, "bob", 1),)


@pytest.mark.parametrize(
    ("count", "lots", "words"),
    [
        (1, (), "can"),
        (1, (Lot(3, "ann", 1),), "can, brought today by ann"),
        (2, (Lot(3, "ann", 2),), "can, brought today by ann"),
        (2, (Lot(2, "ann", 1), Lot(2, "bob", 1)), "can, brought on day 2 by ann and bob"),
        (3, (Lot(2, "ann", 2), Lot(2, "bob", 1)), "can, brought on day 2 by ann (2) and bob (1)"),
        (
            4,
            (Lot(1, "bob", 1), Lot(3, "ann", 2)),
            "can: 2 brought today by ann, 1 on day 1 by bob, 1 here before",
        ),
        (
            3,
            (Lot(2, "ann", 1), Lot(2, "bob", 1), Lot(2, "cid", 1)),
            "can, brought on day 2 by ann, bob and cid",
        ),
    ],
)
def test_the_words_name_everybody_with_how_many(count, lots, words):
    """Those of today come first, then those of earlier days, then what nobody brought."""
    assert origin_words("can", count, lots, tonight=3) == words


def test_people_are_called_by_their_names():
    """A sheet that knows names says them."""
    said = origin_words("can", 1, (Lot(3, "ann", 1),), tonight=3, person=str.title)
    assert said == "can, brought today by Ann"
