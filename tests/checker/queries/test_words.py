"""Words that findings have in common."""

import pytest

from solver.checker.queries.words import clock, counted, listed, people_words, units_words
from solver.problem import Purpose


def test_numbers_take_their_noun_in_the_singular_only_for_one():
    """One sled, no sleds, two sleds."""
    assert [counted(n, "sled") for n in (0, 1, 2)] == ["0 sleds", "1 sled", "2 sleds"]


def test_the_last_of_several_words_is_joined_by_and():
    """Commas stand between all but the last two."""
    assert [listed(["a"]), listed(["a", "b"]), listed(["a", "b", "c"])] == [
        "a",
        "a and b",
        "a, b and c",
    ]


def test_of_many_people_the_first_is_named():
    """One person is named alone, of more the rest are counted."""
    assert people_words(("m1",)) == "m1"
    assert people_words(("m1", "m2", "m3")) == "m1 and 2 more"


def test_units_are_named_by_their_purpose():
    """A purpose of two words has a blank; navigation has no plural of its own."""
    assert units_words(2, Purpose.RESCUE_KIT) == "2 rescue kits"
    assert units_words(1, Purpose.NAVIGATION) == "1 means of navigation"


@pytest.mark.parametrize(("hour", "text"), [(0, "00:00"), (5.5, "05:30"), (13 + 1 / 60, "13:01")])
def test_hours_are_written_as_a_clock_shows_them(hour, text):
    """An hour and its fraction become hours and whole minutes."""
    assert clock(hour) == text
