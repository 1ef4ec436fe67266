"""Counts that are too few for a variant, left out of it."""

from service.errors import Fault
from service.translate.read.edits.nodes import Node, grown, plain
from service.translate.read.edits.too_few import leave_out_too_few

BASE = {
    "fuel": {"containers": [{"container_id": "can", "count": 2}]},
    "menu": {"night_sets": [{"set_id": "low", "bags": 9}]},
}
CANS = Fault("/fuel/containers/0/count", "too_few_containers", "")
BAGS = Fault("/menu/night_sets/0/bags", "too_few_bags", "")


def test_counts_that_are_too_few_are_left_out():
    """Cans and bags are taken as many as needed, and the row says what was given."""
    root = grown(BASE, "/base")
    assert leave_out_too_few(root, (CANS, BAGS), "/variants/0") == [
        "can 2 -> as many as needed",
        "bags of low 9 -> as many as needed",
    ]
    assert plain(root) == {
        "fuel": {"containers": [{"container_id": "can"}]},
        "menu": {"night_sets": [{"set_id": "low"}]},
    }


def test_one_count_that_two_kitchens_share_is_told_once():
    """Two kitchens that are short of the same cans are one change."""
    told = leave_out_too_few(grown(BASE, "/base"), (CANS, CANS), "/variants/0")
    assert told == ["can 2 -> as many as needed"]


def test_another_fault_leaves_all_as_it_is():
    """Nothing is changed where that alone would not make the variant one."""
    root = grown(BASE, "/base")
    other = Fault("/roster/0/pack_cap", "out_of_range", "")
    assert leave_out_too_few(root, (CANS, other), "/variants/0") == []
    assert plain(root) == BASE


def test_what_the_variant_itself_writes_stays():
    """A count in the variant's patch was meant: it is a fault, not something to improve on."""
    root = grown(BASE, "/base")
    can = root.value["fuel"].value["containers"].value[0]
    can.value["count"] = Node(1, "/variants/1/patch/fuel/containers/0/count")
    assert leave_out_too_few(root, (CANS,), "/variants/1") == []
    assert leave_out_too_few(root, (CANS,), "/variants/11") != []


def test_without_faults_nothing_is_done():
    """A variant in order keeps its counts."""
    assert leave_out_too_few(grown(BASE, "/base"), (), "/variants/0") == []
