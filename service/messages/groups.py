"""What a message can say: each group's key letter, its fixed width and what it means.

A group is its key letter, a value of fixed width and a check character. Keys are letters that
no one takes for a digit: neither I nor O. The first group names the plan and says whether the
message is a state that was counted or the answer to one.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Part:
    """One part of a group's value: a number of `width` digits, or one of some letters.

    `letters` is empty for a number and `*` for any digits and letters. `largest` is what a number
    may be at most.
    """

    name: str
    width: int
    letters: str = ""

    @property
    def is_number(self) -> bool:
        """Whether the part is digits alone."""
        return not self.letters

    @property
    def largest(self) -> int:
        """The largest number that fits [1]."""
        return int(10**self.width) - 1


@dataclass(frozen=True, slots=True)
class GroupKind:
    """A kind of group: its key, its name in the JSON, its parts in order, and its meaning."""

    key: str
    name: str
    parts: tuple[Part, ...]
    meaning: str

    @property
    def width(self) -> int:
        """Characters of the value, without key and check character."""
        return sum(part.width for part in self.parts)


_CODE = Part("code", 4, "*")
_PLACE = Part("place", 2)
_PERSON = Part("person", 2)

STATE_HEAD = GroupKind("K", "counted", (_CODE,), "a state that was counted, for the plan named")
ANSWER_HEAD = GroupKind("A", "answered", (_CODE,), "the answer, for the plan named")
HEADS = (STATE_HEAD, ANSWER_HEAD)

DAY = GroupKind(
    "D",
    "when",
    (Part("day", 2), Part("moment", 1, "ME")),
    "day of the plan, and M for its morning or E for its evening",
)

STATE_GROUPS = (
    DAY,
    GroupKind("C", "place", (_PLACE,), "number of the place that the next groups are about"),
    GroupKind("P", "people", (Part("people", 2),), "people who are at the place"),
    GroupKind("G", "cook_group", (Part("cook_group", 1),), "number of the cook group that eats it"),
    GroupKind(
        "N",
        "night_sets",
        (Part("kind", 1), Part("sets", 3)),
        "night sets of one kind at the place: number of the kind, how many sets",
    ),
    GroupKind("F", "fuel", (Part("decilitres", 3),), "fuel at the place, in tenths of a litre"),
    GroupKind("W", "storm_nights", (Part("nights", 2),), "nights of storm still expected"),
    GroupKind(
        "H",
        "hurt",
        (_PERSON, Part("how", 1, "WHF")),
        "number of a person who is hurt; W walks and needs a group L, H is hauled, F must fly; "
        "H and F ask who goes down",
    ),
    GroupKind(
        "L", "load_limit", (_PERSON, Part("kg", 2)), "number of a person and the kg they may carry"
    ),
    GroupKind("S", "sled_lost", (Part("sled", 2),), "number of a sled that is lost"),
    GroupKind("E", "stoves", (Part("stoves", 2),), "stoves that work"),
)
"""What the state of a party may say, in the order in which it is written."""

ANSWER_GROUPS = (
    DAY,
    GroupKind("C", "place", (_PLACE,), "number of the place that the next groups are about"),
    GroupKind("Q", "nights_to_wait", (Part("nights", 2),), "nights that you can wait there"),
    GroupKind("V", "turn_day", (Part("day", 2),), "last day on which you can turn round safely"),
    GroupKind(
        "U", "summit_day", (Part("day", 2),), "last day on which the summit can be tried; 00: none"
    ),
    GroupKind("M", "sleep_next", (_PLACE,), "number of the place where you sleep next"),
    GroupKind("J", "heaviest_load", (Part("kg", 2),), "largest load of one person that day, in kg"),
    GroupKind(
        "T",
        "goes_down",
        (Part("people", 2), Part("alone", 1, "YN")),
        "people who go down together, the hurt one too: Y by your own means, N help is needed",
    ),
    GroupKind("B", "companion", (_PERSON,), "number of a person who goes down"),
    GroupKind(
        "Z",
        "plan",
        (Part("outcome", 1, "SRNX"),),
        "S the plan stands, R there is a new plan, N no plan keeps the rules, X not settled",
    ),
)
"""What an answer may say, in the order in which it is written."""

CLOSING_KEY = "X"
"""Key of the last group: two check characters over the whole message."""
