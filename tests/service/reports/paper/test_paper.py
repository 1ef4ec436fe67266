"""The parts of the paper, each read from a plan that was written by hand."""

import copy

from service.reports.paper.hand_overs import hand_overs, together
from service.reports.paper.keepers import Keeper, keepers_of
from service.reports.paper.kitchens import KitchenThing, kitchens
from service.reports.paper.load_sheet import load_sheet_table
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
        Keeper("stove", "ann", 3, (("bob", 1),)),
        Keeper("pot", "bob", 2, ()),
    )


def test_keepers_that_a_plan_names_are_taken():
    """Where the plan names its keepers, nothing is read from the loads."""
    elsewhere = [{"person_id": "ann"}, {"person_id": "ann"}]
    told = {"unit_id": "stove", "person_id": "bob", "trips": 3, "elsewhere": elsewhere}
    assert keepers_of({**PLAN, "keepers": [told]}) == (Keeper("stove", "bob", 3, (("ann", 2),)),)


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
    assert kitchen.stoves == (KitchenThing("stove", 1, (("bob", 1),), 2),)
    assert kitchen.pots == (KitchenThing("pot", 1, (("bob", 1),), 2),)
    assert kitchen.food == (KitchenThing("all/low", 2, (("bob", 5),), 2),)
    assert kitchen.fuel == (KitchenThing("all/can/open-1", 1, (("ann", 1),), 2),)
    assert (kitchen.set_label, kitchen.fuel_ml) == ("night set low", 300)


def test_own_kit_is_what_is_in_the_pack_on_every_trip():
    """The axe rides always, the bag once: only the axe is own kit, and the rest is listed."""
    own = OwnKit(PLAN)
    assert dict(own.listed(THINGS)) == {"ann": "axe", "bob": "nothing on every trip"}
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
