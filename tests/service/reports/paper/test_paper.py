"""The parts of the paper, each read from a plan that was written by hand."""

import copy

from service.reports.paper.carrying_days import Rides, in_words
from service.reports.paper.hand_overs import hand_overs, together
from service.reports.paper.keepers import Elsewhere, Keeper, keepers_of
from service.reports.paper.kitchens import KitchenThing, kitchens
from service.reports.paper.load_sheet import load_sheet_table
from service.reports.paper.origins import Lot
from service.reports.paper.own_kit import OwnKit
from service.reports.paper.sheet_lines import Sheet, repeats
from service.reports.paper.things import Things, by_unit, carried
from tests.service.reports.paper.two_days import OUTCOME, PLAN, load, trip, unit

THINGS = Things(PLAN)


def test_things_have_names_and_those_not_known_their_ids():
    """A unit is called by its label, several with their count, an unknown one by its id."""
    assert THINGS.listed({"stove": 1, "all/low": 3, "odd": 1}) == "stove; 3 x night set low; odd"
    assert THINGS.listed({"ann/axe": 1}, "ann") == "axe"
    assert (THINGS.kind("all/can"), THINGS.kind("odd")) == ("fuel", "gear")
    assert (THINGS.owner("ann/axe"), THINGS.cook_group("all/low")) == ("ann", "all")


def test_pack_and_sled_are_counted_together():
    """What somebody has on a trip is in the pack and on the sled."""
    both = load("ann", unit("a", 2), sled=[unit("a"), unit("b")])
    assert carried(both) == {"a": 3, "b": 1}
    assert by_unit(trip(1, 1, ("x", "y"), both, load("bob", unit("b")))) == {
        "a": {"ann": 3},
        "b": {"ann": 1, "bob": 1},
    }


def test_the_keeper_has_a_thing_on_most_trips():
    """Single shared gear has a keeper; food, waste and personal things have none."""
    assert keepers_of(PLAN) == (
        Keeper("stove", 1, "ann", 3, (Elsewhere(2, 1, "road", "camp", "bob", 1),)),
        Keeper("pot", 1, "bob", 2, ()),
    )
    assert keepers_of(PLAN)[0].others == (("bob", 1),)


def test_keepers_that_a_plan_names_are_taken():
    """Where the plan names its keepers, nothing is read from the loads."""
    way = {"day": 1, "step": 1, "from": "road", "to": "cache", "person_id": "ann", "count": 2}
    named = {"unit_id": "wand", "count": 3, "person_id": "bob", "trips": 3, "elsewhere": [way]}
    (keeper,) = keepers_of({**PLAN, "keepers": [named]})
    assert keeper == Keeper("wand", 3, "bob", 3, (Elsewhere(1, 1, "road", "cache", "ann", 2),))
    assert [one.as_document() for one in keeper.elsewhere] == [way]


def test_the_sheet_says_on_which_trips_others_have_a_thing():
    """The stove is with ann, and with bob on one of the two trips of day 2 on which it might be."""
    assert list(Sheet(OUTCOME).keepers()) == [
        "  ann",
        "    stove. Others: bob on day 2",
        "  bob",
        "    pot",
    ]
    assert list(Sheet(OUTCOME).bundles()) == []


def test_alike_things_say_who_takes_how_many_when():
    """Of eight bags nobody is the keeper: each person has how many at most, and the days."""
    named = {"unit_id": "all/low", "count": 8, "person_id": "bob", "trips": 3, "elsewhere": []}
    sheet = Sheet({**OUTCOME, "plan": {**PLAN, "keepers": [named]}})
    assert list(sheet.keepers()) == []
    assert list(sheet.bundles()) == [
        "  8 x night set low: ann takes 3 on day 1; bob takes up to 5 on day 2"
    ]


def test_days_are_said_in_few_words():
    """Three days in a row are a range; a day with a remark stands alone with it."""
    assert in_words([4]) == "day 4"
    assert in_words([4, 2, 3]) == "days 2-4"
    assert in_words([1, 2, 4, 5, 6, 9]) == "days 1, 2, 4-6 and 9"
    assert in_words([1, 2, 3], {2: "road to camp"}) == "days 1, 2 (road to camp) and 3"


def test_what_others_have_on_some_trips_of_a_day_says_the_way():
    """Trips that follow on each other are one way, others two."""
    ways = [("road", "cache"), ("cache", "camp"), ("camp", "cache"), ("camp", "hut")]
    trips = [
        trip(1, step, way, load("ann", unit("pot")), load("bob", unit("stove")))
        for step, way in enumerate(ways, 1)
    ]
    trips.append(trip(1, 5, ("hut", "camp"), load("ann", unit("stove"))))
    exceptions = tuple(Elsewhere(1, step, *ways[step - 1], "bob", 1) for step in (1, 2, 4))
    keeper = Keeper("stove", 1, "ann", 5, exceptions)
    told = Rides({"trips": trips}).others(keeper, person=str.title, place=str.upper)
    assert told == "Bob on day 1 (ROAD to CAMP and CAMP to HUT)"


def test_what_is_in_use_stands_apart_without_a_mass():
    """A rope in hand is in no pack: the sheet lists it apart, and the table without a mass."""
    outcome = copy.deepcopy(OUTCOME)
    ann = outcome["plan"]["trips"][0]["loads"][0]
    ann |= {"sled_id": "sled-1", "sled": [unit("pot", each_kg=0.0), unit("all/can")]}
    ann["pack"][0] = unit("ann/axe", each_kg=0.0)
    lines = list(Sheet(outcome).load(ann))
    assert lines == [
        "      pack: bag; stove; 3 x night set low; water 2 kg, lunch 0.3 kg",
        "      sled-1: can",
        "      in use, in no load: axe; pot",
    ]
    rows = [r for r in load_sheet_table(outcome).as_rows() if r["carried_in"] == "in_use"]
    assert [(r["thing"], r["kg"]) for r in rows] == [("axe of ann", None), ("pot", None)]


def test_shares_have_the_digits_that_tell_them_apart():
    """No reason says that 93 % is more than 93 %, nor that 44 % is less than 44 %."""
    outcome = copy.deepcopy(OUTCOME)
    ann, bob = outcome["plan"]["trips"][2]["loads"]

    def reason() -> str:
        return next(o.reason for o in hand_overs(outcome) if o.unit_id == "stove")

    ann |= {"pack_kg": 17.68, "load_fraction": 0.93}
    outcome["peak"]["load_fraction"] = 0.9335
    assert reason() == "ann would carry 93.4%, more than the peak of 93.3%"
    outcome["peak"]["load_fraction"] = 0.934
    bob["load_fraction"] = 0.926
    assert reason() == "ann carries 93.0%, bob 92.6%"
    ann["pack_kg"] = 19.004
    assert reason() == "too heavy for ann: 100.02% of the cap with it"


def test_what_changes_hands_is_the_less_of_what_is_gained_and_given():
    """The stove goes from one to the other; of the bags two do, and the three more none."""
    told = [
        (o.day, o.step, o.place, o.unit_id, o.count, o.giver, o.taker) for o in hand_overs(OUTCOME)
    ]
    assert told == [
        (2, 1, "road", "stove", 1, "ann", "bob"),
        (2, 1, "road", "all/low", 2, "ann", "bob"),
    ]


def test_hand_overs_say_why_from_the_loads():
    """Too heavy, over the peak, more loaded, not on the trip, or not for its mass."""
    outcome = copy.deepcopy(OUTCOME)
    ann, bob = outcome["plan"]["trips"][2]["loads"]

    def reason() -> str:
        return next(o.reason for o in hand_overs(outcome) if o.unit_id == "stove")

    assert reason() == "not for its mass: room, things kept apart, or the balance of loads"
    ann |= {"load_fraction": 0.7}
    bob |= {"load_fraction": 0.6}
    assert reason() == "ann carries 70%, bob 60%"
    ann |= {"pack_kg": 13.5}
    assert reason() == "ann would carry 72%, more than the peak of 70%"
    ann |= {"pack_kg": 19.5}
    assert reason() == "too heavy for ann: 102% of the cap with it"
    ann |= {"pack_kg": 5.0, "total_kg": 5.0, "load_limit_kg": 5.5}
    assert reason() == "too heavy for ann: 109% of the cap with it"
    outcome["plan"]["trips"][2]["loads"].remove(ann)
    assert reason() == "ann is not on this trip"


def test_a_sled_with_room_is_no_reason():
    """A thing that would fit on the giver's sled is not too heavy for a full pack."""
    outcome = copy.deepcopy(OUTCOME)
    ann = outcome["plan"]["trips"][2]["loads"][0]
    ann |= {"pack_kg": 19.5, "sled_id": "sled-1", "sled_kg": 4.0, "sled_cap_kg": 20.0}
    told = next(o.reason for o in hand_overs(outcome) if o.unit_id == "stove")
    assert told.startswith("not for its mass")


def test_hand_overs_of_two_people_are_told_together():
    """Things that go from one to another at once for one reason are one line."""
    assert [counts for _, counts in together(hand_overs(OUTCOME))] == [{"stove": 1, "all/low": 2}]


def test_a_kitchen_says_who_brought_what():
    """Stove, pot and food come with who brought them last, fuel with what is open."""
    (kitchen,) = kitchens(PLAN)
    lot = (Lot(2, "bob", 1),)
    assert kitchen.stoves == (KitchenThing("stove", 1, (("bob", 1),), 2, lot),)
    assert kitchen.pots == (KitchenThing("pot", 1, (("bob", 1),), 2, lot),)
    assert kitchen.shelters == ()
    assert kitchen.food == (KitchenThing("all/low", 2, (("bob", 5),), 2, (Lot(2, "bob", 2),)),)
    assert kitchen.fuel == (
        KitchenThing("all/can/open-1", 1, (("ann", 1),), 2, (Lot(2, "ann", 1),)),
    )
    assert (kitchen.set_label, kitchen.fuel_ml) == ("night set low", 300)


def test_own_kit_is_what_is_in_the_pack_on_every_trip():
    """The axe rides always, the bag once: only the axe is own kit, and the rest is listed."""
    own = OwnKit(PLAN)
    assert list(own.listed(THINGS)) == [
        ("ann", 1.0, "axe"),
        ("bob", 0.0, "nothing on every trip"),
    ]
    words, rest = own.split(PLAN["trips"][0]["loads"][0])
    assert (words, rest) == ("own kit", {"ann/bag": 1, "stove": 1, "all/low": 3})


def test_the_sheet_says_where_things_change_hands():
    """A line names the place, when the thing was last carried, both people and why."""
    lines = "\n".join(Sheet(OUTCOME).changes(2, 1))
    assert "Changes hands at road, last carried on day 1: ann to bob: stove" in lines
    assert "    stove: stove, brought today by bob" in Sheet(OUTCOME).night(2)


def test_the_table_has_names_keepers_and_givers():
    """The row of the stove on day 2 names the keeper, from whom it comes and why."""
    rows = load_sheet_table(OUTCOME).as_rows()
    (row,) = (r for r in rows if r["thing"] == "stove" and r["day"] == 2)
    assert (row["person_id"], row["keeper"], row["taken_over_from"]) == ("bob", "ann", "ann")
    assert str(row["reason"]).startswith("not for its mass")
    assert sum(r["thing"] == "water" for r in rows) == 7


def test_stock_repeats_only_where_nothing_differs():
    """A night without a night before, or with other units or figures, does not repeat."""
    night = {"units": [unit("a")], "cook_groups": []}
    assert repeats(night, dict(night))
    assert not repeats(night, None)
    assert not repeats(night, {"units": [unit("a", 2)], "cook_groups": []})
    assert not repeats(night, {"units": [unit("a")], "cook_groups": [{}]})
