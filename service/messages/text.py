"""A message as text: written, and read back without guessing.

    K7Q4MR D06EA C03* N1014R F0954 W03Y ...

Each group ends with a check character over its place in the message and itself. The last group
holds two check characters over everything before it and the number of groups. A message is at
most 140 characters of A-Z, 0-9, blank and `*`: these are single characters of the GSM 7-bit
alphabet (3GPP TS 23.038), and 20 of the 160 stay free for what networks add.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import product

from service.messages.check_characters import LETTERS, check_37_2, check_1271_36
from service.messages.groups import (
    ANSWER_GROUPS,
    ANSWER_HEAD,
    CLOSING_KEY,
    HEADS,
    STATE_GROUPS,
    STATE_HEAD,
    GroupKind,
    Part,
)

MOST_CHARACTERS = 140
_MOST_GROUPS = 35

Value = int | str


@dataclass(frozen=True, slots=True)
class Group:
    """One thing that a message says: the kind's name and its values by part."""

    name: str
    values: Mapping[str, Value]


@dataclass(frozen=True, slots=True)
class Message:
    """A state that was counted or an answer, for the plan of a code, as groups in order."""

    is_answer: bool
    plan_code: str
    groups: tuple[Group, ...]


@dataclass(frozen=True, slots=True)
class Doubt:
    """A group that cannot be trusted: its number from 1, its text, and why."""

    number: int
    text: str
    why: str


class MessageInDoubtError(Exception):
    """A message that cannot be read in exactly one way; carries what is in doubt."""

    def __init__(self, doubts: tuple[Doubt, ...]) -> None:
        super().__init__(f"{len(doubts)} groups of the message are in doubt")
        self.doubts = doubts


def write_message(message: Message) -> str:
    """The text of a message.

    ValueError for a value that does not fit its group, an unknown group or a text that is too
    long: nothing is cut.
    """
    head = ANSWER_HEAD if message.is_answer else STATE_HEAD
    bodies = [_body(head, {"code": message.plan_code})]
    kinds = {kind.name: kind for kind in _kinds(bodies[0])}
    for group in message.groups:
        if group.name not in kinds:
            raise ValueError(f"a message of this kind has no group {group.name}")
        bodies.append(_body(kinds[group.name], group.values))
    text = " ".join((*_checked(bodies), CLOSING_KEY + _closing(bodies)))
    if len(text) > MOST_CHARACTERS or len(bodies) > _MOST_GROUPS:
        raise ValueError(f"the message has {len(text)} characters, at most {MOST_CHARACTERS} fit")
    return text


def read_message(text: str) -> Message:
    """Read a message; small letters and any number of blanks are let pass.

    A letter O or I in a place of digits is read as 0 or 1 where that alone makes every check
    right. Raises MessageInDoubtError with every group that is in doubt.
    """
    words = re.split(r"[ \t\r\n]+", text.strip(" \t\r\n").upper())
    if len(words) < 2 or len(words) > _MOST_GROUPS + 1:
        raise MessageInDoubtError((Doubt(1, "", "a message has 2 to 36 groups"),))
    *written, closing = words
    bodies: list[str] = []
    doubts: list[Doubt] = []
    kinds: Sequence[GroupKind] = HEADS
    for number, word in enumerate(written, start=1):
        try:
            bodies.append(_read_group(kinds, word, number))
        except _DoubtfulError as error:
            doubts.append(Doubt(number, word, str(error)))
        if number == 1:
            # Where the head is in doubt so is the kind of message; only what fits neither is
            # told of the rest.
            kinds = (*STATE_GROUPS, *ANSWER_GROUPS) if doubts else _kinds(bodies[0])
    if not doubts and closing != CLOSING_KEY + _closing(bodies):
        why = "the check over the whole message is wrong: a group is missing, doubled or moved"
        doubts.append(Doubt(len(words), closing, why))
    if doubts:
        raise MessageInDoubtError(tuple(doubts))
    head, *rest = bodies
    by_key = {kind.key: kind for kind in kinds}
    groups = tuple(_group(by_key[body[0]], body) for body in rest)
    return Message(head[0] == ANSWER_HEAD.key, head[1:], groups)


class _DoubtfulError(Exception):
    """Why one group cannot be trusted."""


def _kinds(head: str) -> Sequence[GroupKind]:
    """What may follow a head."""
    return ANSWER_GROUPS if head[0] == ANSWER_HEAD.key else STATE_GROUPS


def _body(kind: GroupKind, values: Mapping[str, Value]) -> str:
    """Key and value of a group, without its check character."""
    if set(values) != {part.name for part in kind.parts}:
        raise ValueError(f"group {kind.name} needs {', '.join(p.name for p in kind.parts)}")
    return kind.key + "".join(_written(part, values[part.name]) for part in kind.parts)


def _written(part: Part, value: Value) -> str:
    if part.is_number:
        if not isinstance(value, int) or not 0 <= value <= part.largest:
            raise ValueError(f"{part.name} must be a whole number from 0 to {part.largest}")
        return f"{value:0{part.width}d}"
    text = str(value)
    if len(text) != part.width or not _are_letters_of(part, text):
        raise ValueError(f"{part.name} must be {part.width} of {_letters_of(part)}")
    return text


def _letters_of(part: Part) -> str:
    if part.is_number:
        return LETTERS[:10]
    return LETTERS if part.letters == "*" else part.letters


def _are_letters_of(part: Part, text: str) -> bool:
    return all(letter in _letters_of(part) for letter in text)


def _checked(bodies: Sequence[str]) -> Iterator[str]:
    """Each body with its check character, over its place in the message and itself."""
    for number, body in enumerate(bodies, start=1):
        yield body + check_37_2(LETTERS[number] + body)


def _closing(bodies: Sequence[str]) -> str:
    """The check characters over all bodies and how many there are."""
    return check_1271_36("".join(bodies) + LETTERS[len(bodies)])


def _read_group(kinds: Sequence[GroupKind], word: str, number: int) -> str:
    """The body of a group that is as it was written, or has exactly one such reading."""
    named = [kind for kind in kinds if kind.key == word[:1]]
    if not named:
        raise _DoubtfulError("no group of such a message begins with this letter")
    fitting = [kind for kind in named if len(word) == kind.width + 2]
    if not fitting:
        raise _DoubtfulError(f"this group has {named[0].width + 2} characters")
    readings = {
        body
        for kind in fitting
        for body in _readings(kind, word[1:-1])
        if all(_are_letters_of(part, its) for part, its in _split(kind, body))
        and check_37_2(LETTERS[number] + body) == word[-1]
    }
    if len(readings) != 1:
        raise _DoubtfulError("the check character does not fit: a character or its place is wrong")
    return readings.pop()


def _readings(kind: GroupKind, value: str) -> Iterator[str]:
    """A group's body as it stands, and with O and I read as digits where digits belong."""
    choices: list[str] = []
    for part, text in _split(kind, kind.key + value):
        for letter in text:
            looks = {"O": "0", "I": "1"}.get(letter, "") if part.is_number else ""
            choices.append(looks or letter)
    yield from (kind.key + "".join(one) for one in product(*choices))


def _split(kind: GroupKind, body: str) -> Iterator[tuple[Part, str]]:
    """Each part of a group with its characters."""
    begin = 1
    for part in kind.parts:
        yield part, body[begin : begin + part.width]
        begin += part.width


def _group(kind: GroupKind, body: str) -> Group:
    values: dict[str, Value] = {
        part.name: int(text) if part.is_number else text for part, text in _split(kind, body)
    }
    return Group(kind.name, values)
