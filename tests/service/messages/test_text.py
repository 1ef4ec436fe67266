"""A message comes back as it was written, and a garbled one is refused where it is garbled."""

import random

import pytest

from service.messages.groups import ANSWER_GROUPS, STATE_GROUPS, GroupKind, Part
from service.messages.text import (
    MOST_CHARACTERS,
    Group,
    Message,
    MessageInDoubtError,
    read_message,
    write_message,
)

STATE = Message(
    is_answer=False,
    plan_code="7Q4M",
    groups=(
        Group("when", {"day": 6, "moment": "E"}),
        Group("place", {"place": 3}),
        Group("people", {"people": 6}),
        Group("night_sets", {"kind": 1, "sets": 14}),
        Group("fuel", {"decilitres": 95}),
        Group("storm_nights", {"nights": 3}),
        Group("hurt", {"person": 4, "how": "W"}),
    ),
)
_ALPHABET_GSM = set("ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789 *")


def _value(part: Part, chance: random.Random) -> int | str:
    if part.is_number:
        return chance.randint(0, part.largest)
    letters = "0123456789ABCDEFGHJKMNPQRSTVWXYZ" if part.letters == "*" else part.letters
    return "".join(chance.choices(letters, k=part.width))


def _random_message(chance: random.Random) -> Message:
    is_answer = chance.random() < 0.5
    kinds: tuple[GroupKind, ...] = ANSWER_GROUPS if is_answer else STATE_GROUPS
    chosen = chance.choices(kinds, k=chance.randint(1, 17))
    groups = tuple(
        Group(kind.name, {part.name: _value(part, chance) for part in kind.parts})
        for kind in chosen
    )
    return Message(is_answer, str(_value(Part("code", 4, "*"), chance)), groups)


def test_a_thousand_random_messages_come_back_as_they_were():
    """Reading what was written gives the same message, in letters of the GSM 7-bit alphabet."""
    chance = random.Random(11)
    for _ in range(1000):
        message = _random_message(chance)
        text = write_message(message)
        assert len(text) <= MOST_CHARACTERS
        assert set(text) <= _ALPHABET_GSM
        assert read_message(text) == message
        assert read_message(text.lower().replace(" ", "  ")) == message


def test_every_change_of_one_character_is_refused_at_its_group():
    """Any other letter at any place of any group is refused, and the group is named."""
    words = write_message(STATE).split(" ")
    for number, word in enumerate(words, start=1):
        for place, letter in enumerate(word):
            for other in "0123456789ABCDEFGHJKLMNPQRSTUVWXYZ".replace(letter, ""):
                garbled = word[:place] + other + word[place + 1 :]
                text = " ".join([*words[: number - 1], garbled, *words[number:]])
                with pytest.raises(MessageInDoubtError) as refused:
                    read_message(text)
                assert [doubt.number for doubt in refused.value.doubts] == [number]


@pytest.mark.parametrize("number", range(1, 9))
def test_a_group_that_is_missing_doubled_or_moved_is_refused(number: int):
    """The place of a group counts in its check, and the closing group counts them all."""
    words = write_message(STATE).split(" ")
    without = [*words[: number - 1], *words[number:]]
    doubled = [*words[:number], *words[number - 1 :]]
    moved = [*without[:3], words[number - 1], *without[3:]]
    for garbled in (without, doubled, *([moved] if moved != words else [])):
        with pytest.raises(MessageInDoubtError):
            read_message(" ".join(garbled))


def test_an_o_among_digits_is_a_nought_where_only_that_fits():
    """People read 0 as O; where digits belong and the check agrees, that is no doubt."""
    text = write_message(STATE)
    day = text.split(" ")[1]
    assert day.startswith("D06E")
    assert read_message(text.replace("D06E", "DO6E")) == STATE


def test_two_garbled_groups_are_both_named():
    """All groups in doubt are named at once."""
    words = write_message(STATE).split(" ")
    words[2], words[5] = "C99Z", "F000*"
    with pytest.raises(MessageInDoubtError) as refused:
        read_message(" ".join(words))
    assert [(doubt.number, doubt.text) for doubt in refused.value.doubts] == [
        (3, "C99Z"),
        (6, "F000*"),
    ]


@pytest.mark.parametrize("text", ["", " ", "K", "HELLO", "HELLO WORLD", "K7Q4M", "\u2603 \u2603"])
def test_what_is_no_message_is_refused(text: str):
    """Free text is no message."""
    with pytest.raises(MessageInDoubtError):
        read_message(text)


def test_what_does_not_fit_is_not_cut():
    """A number too large for its group and a message that is too long are errors."""
    large = Group("people", {"people": 100})
    with pytest.raises(ValueError, match="people must be a whole number from 0 to 99"):
        write_message(Message(False, "7Q4M", (large,)))
    with pytest.raises(ValueError, match="at most 140 fit"):
        write_message(Message(False, "7Q4M", STATE.groups * 4))
    with pytest.raises(ValueError, match="no group heaviest_load"):
        write_message(Message(False, "7Q4M", (Group("heaviest_load", {"kg": 24}),)))


def test_keys_are_letters_that_nobody_takes_for_digits():
    """No key is I or O, and no two groups of a kind of message share one."""
    for kinds in (STATE_GROUPS, ANSWER_GROUPS):
        keys = [kind.key for kind in kinds]
        assert len(set(keys)) == len(keys)
        assert not {"I", "O", "X"} & set(keys)
