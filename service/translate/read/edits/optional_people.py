"""Variants of a comparison made from people who may come along or not."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from itertools import combinations
from math import comb

from api_schema.comparison import MOST_VARIANTS, OptionalPeopleRequest
from service.errors import Fault
from service.translate.read.edits.nodes import Node, entries, grown, listed, plain, said
from service.translate.read.near_names import unknown_id_words

ORIGIN = "/optional_people"
_LONGEST_NAME = 120


@dataclass(frozen=True, slots=True)
class OptionalPeople:
    """Who may come along, in the order asked for, and who of them stands on the base's roster."""

    person_ids: tuple[str, ...]
    on_roster: frozenset[str]
    sizes: range

    def choices(self) -> Iterator[tuple[str, ...]]:
        """Those who come along, the fewest first."""
        for size in self.sizes:
            yield from combinations(self.person_ids, size)

    def name(self, coming: tuple[str, ...]) -> str:
        """The name of a variant, by whom it has or by whom it leaves at home."""
        left = [one for one in self.person_ids if one not in coming]
        if len(left) < len(coming):
            text = f"without {', '.join(left)}" if left else "with all of them"
        else:
            text = f"with {', '.join(coming)}" if coming else "with none of them"
        return text if len(text) <= _LONGEST_NAME else text[: _LONGEST_NAME - 1] + "…"


def read_optional(
    asked: OptionalPeopleRequest, base: Node, people: Mapping[str, Node], *, others: int
) -> OptionalPeople | tuple[Fault, ...]:
    """What is asked, or what is wrong with it. `others` is the number of variants beside."""
    gone = [one.value for one in entries(base, "without")]
    roster = [said(person, "person_id") for person in entries(base, "roster")]
    known = [one for one in [*roster, *people] if isinstance(one, str) and one not in gone]
    ids = asked.person_ids
    faults = []
    for number, one in enumerate(ids):
        pointer = f"{ORIGIN}/person_ids/{number}"
        if one in ids[:number]:
            faults.append(Fault(pointer, "duplicate_id", "This person is named before."))
        elif one not in known:
            faults.append(Fault(pointer, "unknown_id", unknown_id_words("person", one, known)))
    most = len(ids) if asked.most is None else min(asked.most, len(ids))
    count = sum(comb(len(ids), size) for size in range(asked.least, most + 1))
    if count == 0:
        words = f"No choice has so many people: write at most {most}."
        faults.append(Fault(f"{ORIGIN}/least", "too_large", words))
    if count + others > MOST_VARIANTS:
        words = (
            f"These are {count:,} choices and {others} variants; a comparison has at most "
            f"{MOST_VARIANTS}. Name fewer people, or narrow `least` and `most`."
        )
        faults.append(Fault(ORIGIN, "too_many", words))
    if faults:
        return tuple(faults)
    return OptionalPeople(
        tuple(ids), frozenset(ids) & {*map(str, roster)}, range(asked.least, most + 1)
    )


def take_along(
    root: Node, optional: OptionalPeople, coming: tuple[str, ...], people: Mapping[str, Node]
) -> tuple[str, ...]:
    """Put a choice into the tree of the base; gives what was done, in words."""
    before = len(entries(root, "roster")) - len(entries(root, "without"))
    after = before
    for number, one in enumerate(optional.person_ids):
        if one in optional.on_roster and one not in coming:
            listed(root, "without", ORIGIN).append(Node(one, f"{ORIGIN}/person_ids/{number}"))
            after -= 1
        elif one not in optional.on_roster and one in coming:
            new = people[one]
            listed(root, "roster", ORIGIN).append(grown(plain(new), new.origin))
            after += 1
    is_base = frozenset(coming) == optional.on_roster
    return () if is_base else (f"roster {before} -> {after}",)
