"""The check characters agree with the standard's example and find what they say they find."""

import random

import pytest

from service.messages.check_characters import LETTERS, check_37_2, check_1271_36


def test_the_example_of_the_standard_has_its_check_characters():
    """ISO79 becomes ISO793W by MOD 1271-36 (ISO/IEC 7064:2003, worked example)."""
    assert check_1271_36("ISO79") == "3W"


def test_worked_by_hand():
    """D06C2N14F9 leaves 21 by the recursion, whose check value is 17, an H."""
    assert check_37_2("D06C2N14F9") == "H"
    assert check_1271_36("D06C2N14F9") == "YT"


def test_agrees_with_an_independent_library():
    """python-stdnum computes the same MOD 37-2 for a thousand random texts."""
    stdnum = pytest.importorskip("stdnum.iso7064.mod_37_2")
    chance = random.Random(7)
    for _ in range(1000):
        text = "".join(chance.choices(LETTERS, k=chance.randint(1, 36)))
        assert check_37_2(text) == stdnum.calc_check_digit(text)


def test_every_change_of_one_character_is_found():
    """Each of the 35 other characters at each place changes the check character."""
    text = "4D06C2N14F9"
    for place, letter in enumerate(text):
        for other in LETTERS.replace(letter, ""):
            assert check_37_2(text[:place] + other + text[place + 1 :]) != check_37_2(text)


def test_two_that_changed_places_are_found():
    """Any two different characters of a text that changed places change the check character."""
    text = "4D06C2N14F9K7Q"
    for a in range(len(text)):
        for b in range(a):
            if text[a] != text[b]:
                swapped = list(text)
                swapped[a], swapped[b] = swapped[b], swapped[a]
                assert check_37_2("".join(swapped)) != check_37_2(text)


@pytest.mark.parametrize("text", ["a", "A B", "Ä", "*"])
def test_other_characters_have_none(text: str):
    """Small letters, blanks and signs are refused, not skipped."""
    with pytest.raises(ValueError, match="only digits and capital letters"):
        check_37_2(text)
    with pytest.raises(ValueError, match="only digits and capital letters"):
        check_1271_36(text)
