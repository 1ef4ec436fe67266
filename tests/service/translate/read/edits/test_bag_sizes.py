"""Bags of night sets packed anew for more or fewer people."""

import pytest

from service.translate.read.edits.bag_sizes import pack_anew, people_by_menu
from service.translate.read.edits.nodes import grown, plain


def request(people: int, *night_sets: dict, others: int = 0, without: int = 0) -> dict:
    """People of kitchen a, others of kitchen b, and night sets; the last people stay at home."""
    roster = [{"person_id": f"a{n}", "cook_group": "a"} for n in range(people)]
    roster += [{"person_id": f"b{n}", "cook_group": "b"} for n in range(others)]
    gone = [f"a{people - 1 - n}" for n in range(without)]
    return {
        "roster": roster,
        "without": gone,
        "menu": {"night_sets": [{"set_id": f"s{n}", **one} for n, one in enumerate(night_sets)]},
    }


def packed(before: dict, after: dict) -> tuple[list[str], list[dict]]:
    """What is said of a request that has changed, and its night sets afterwards."""
    root = grown(after)
    told = pack_anew(root, people_by_menu(grown(before)))
    return told, plain(root)["menu"]["night_sets"]


@pytest.mark.parametrize(
    ("people", "now", "per_bag", "packed_per_bag"),
    [
        (4, 3, 4, 3),  # a bag of a night of all stays one
        (4, 5, 4, 5),
        (4, 8, 4, 4),  # it comes out even: nothing to do
        (4, 2, 2, 2),
        (4, 3, 2, 1),  # no pair is left over
        (6, 4, 3, 2),
        (8, 6, 4, 3),
        (4, 3, 3, 3),  # it did not come out even before: the request is wrong, not the edit
        (3, 2, 1, 1),
    ],
)
def test_a_bag_comes_out_even_for_those_who_go(people, now, per_bag, packed_per_bag):
    """Bags of a night of all stay that; others get the most sets that leave nothing over."""
    one = {"sets_per_bag": per_bag}
    told, (night_set,) = packed(request(people, one), request(now, one))
    assert night_set["sets_per_bag"] == packed_per_bag
    expected = f"bags of a, night sets in each {per_bag} -> {packed_per_bag}: s0"
    assert told == ([] if packed_per_bag == per_bag else [expected])


def test_bags_that_did_not_come_out_even_before_stay():
    """An edit does not mend a request that was wrong without it."""
    told, (night_set,) = packed(request(5, {"sets_per_bag": 4}), request(3, {"sets_per_bag": 4}))
    assert (told, night_set["sets_per_bag"]) == ([], 4)


def test_whoever_stays_at_home_eats_nothing():
    """People in `without` are not counted, so a bag of four becomes one of three."""
    one = {"sets_per_bag": 4.0}
    told, (night_set,) = packed(request(4, one), request(4, one, without=1))
    assert night_set["sets_per_bag"] == 3
    assert told == ["bags of a, night sets in each 4 -> 3: s0"]


def test_small_bags_of_storm_sets_stay():
    """Reserves are rounded up to whole bags; only a storm bag for all is packed anew."""
    sets = ({"sets_per_bag": 2, "storm": True}, {"sets_per_bag": 4, "storm": True})
    _, (pair, whole) = packed(request(4, *sets), request(3, *sets))
    assert (pair["sets_per_bag"], whole["sets_per_bag"]) == (2, 3)


@pytest.mark.parametrize(("per_bag", "bags", "now"), [(4, 10, 10), (2, 20, 30), (2, 5, 8)])
def test_a_given_number_of_bags_lasts_for_as_many_nights(per_bag, bags, now):
    """Ten nights of four are ten bags of three for three people, or thirty bags of one."""
    one = {"sets_per_bag": per_bag, "bags": bags}
    told, (night_set,) = packed(request(4, one), request(3, one))
    assert night_set["bags"] == now
    assert (f"({bags} -> {now} bags)" in told[0]) == (now != bags)


def test_a_night_set_of_two_kitchens_is_packed_for_each():
    """One kitchen loses a person: its bags change, those of the other stay, in the same place."""
    sets = ({"sets_per_bag": 4}, {"sets_per_bag": 1})
    told, found = packed(request(4, *sets, others=4), request(3, *sets, others=4))
    assert [(one["set_id"], one.get("cook_group"), one["sets_per_bag"]) for one in found] == [
        ("s0", "a", 3),
        ("s0", "b", 4),
        ("s1", None, 1),
    ]
    assert told == ["bags of a, night sets in each 4 -> 3: s0"]


def test_only_those_who_eat_a_menu_count():
    """The vegetarian's own bags of one stay when a mixed eater leaves the kitchen."""
    before = request(3, {"sets_per_bag": 2}, {"sets_per_bag": 1, "menu": "green"})
    after = request(2, {"sets_per_bag": 2}, {"sets_per_bag": 1, "menu": "green"})
    for document in (before, after):
        document["roster"][0]["menu"] = "green"
    told, (mixed, green) = packed(before, after)
    assert (mixed["sets_per_bag"], green["sets_per_bag"]) == (1, 1)
    assert told == ["bags of a, night sets in each 2 -> 1: s0"]


@pytest.mark.parametrize("per_bag", ["four", True, None, [4], 0, -2, 2.5])
def test_what_is_no_number_of_sets_is_left_to_its_fault(per_bag):
    """A size that cannot be read stays, and is told with all other faults."""
    one = {"sets_per_bag": per_bag}
    told, (night_set,) = packed(request(4, one), request(3, one))
    assert (told, night_set["sets_per_bag"]) == ([], per_bag)
