"""The shapes that faults share, and lists of ids in a sentence."""

from solver.problem.fault_checks.wording import MOST_IDS_LISTED, below, duplicate_ids, listed
from solver.problem.fault_checks.wording import unknown_id as unknown


def test_ids_are_listed_once_and_a_long_list_is_cut():
    """A list keeps its order, names nothing twice, and counts what it does not name."""
    assert listed(["b", "a", "b"]) == "b, a"
    assert listed([]) == "none"
    many = [str(number) for number in range(MOST_IDS_LISTED + 3)]
    assert listed(many).endswith("11 and 3 more")


def test_an_unknown_id_is_named_with_the_known_ones():
    """The fault stands at its pointer and says what could have been meant."""
    fault = unknown(("roster", 0), "bob", "person", ["ann", "cy"])
    assert (fault.where, fault.code) == (("roster", 0), "unknown_id")
    assert fault.detail == "There is no person bob. Known are: ann, cy."


def test_each_later_copy_of_an_id_is_a_fault():
    """Of three equal ids the second and the third are faults."""
    faults = list(duplicate_ids(("sleds",), "sled_id", ["s", "t", "s", "s"], "sled"))
    assert [fault.where for fault in faults] == [("sleds", 2, "sled_id"), ("sleds", 3, "sled_id")]


def test_the_least_allowed_number_is_no_fault():
    """A number is too small only below the least, which the words name with its unit."""
    assert list(below(("x",), 0, 0, "The fuel", "mL")) == []
    (fault,) = below(("x",), -1, 0, "The fuel", "mL")
    assert fault.detail == "The fuel must be at least 0 mL."
    (fault,) = below(("x",), 0, 1, "The count", "")
    assert fault.detail == "The count must be more than 0."
