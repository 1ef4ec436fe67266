"""Somebody who was not there reads the print-out: answers from its text alone.

Nothing here knows the answer that was printed, nor the program that printed it.

The file is long because it reads a print-out on its own, with nothing of the printer's parts.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, field

DAY = re.compile(r"^Day (\d+)\b")
TRIP = re.compile(r"^  (\S+) to (\S+), [a-z ]+$")
PERSON = re.compile(r"^    (\S+) +pack +[\d.]+ of ")
CHANGE = re.compile(r"^    Changes hands at (\S+), (?:on the way|last carried on day \d+): (.*)$")
BETWEEN = re.compile(r"^(\S+) to (\S+): (.*)$")
SLEEP = re.compile(r"^  Sleep at (\S+): (.+)$")
KITCHEN = re.compile(r"^  Kitchen tonight at (\S+), cook group (\S+?):")
LEFT = re.compile(r"^  Left alone at (\S+)$")
LEFT_STILL = re.compile(r"^  Left alone still: (.*)$")
AS_BEFORE = re.compile(r"^(\S+) as on day (\d+)$")
OWNED = re.compile(r"^    of (\S+): (.*)$")
IN_KITCHEN = re.compile(r"^    (stove|pot|shelter|food|fuel): (.*)$")
COUNTED = re.compile(r"^(\d+) x (.+)$")
WATER = re.compile(r"^water [\d.]+ kg, lunch [\d.]+ kg$")
ALL_BROUGHT = re.compile(r"^(.+), brought (today|on day \d+) by ([^:]+)$")
SOME_BROUGHT = re.compile(r"^(.+?): (\d+ brought (?:today|on day \d+) by .+)$")
PARTS = r", (?=\d+ (?:today|on day|here before))"
A_PART = re.compile(r"^(\d+) (?:brought )?(today|on day \d+) by (.+)$")
BEFORE = re.compile(r"^\d+ here before$")
BEFORE_LAST = re.compile(r"(\d+) here before$")
OWN = "own kit"
PACK = "      pack: "
IN_USE = "      in use, in no load: "


@dataclass
class PaperChange:
    """Things that one person hands to another before a trip."""

    place: str
    giver: str
    taker: str
    things: Counter[str]


@dataclass
class PaperTrip:
    """What the paper says of one trip: who has what in the pack and on the sled."""

    from_place: str
    to_place: str
    changes: list[PaperChange] = field(default_factory=list)
    packs: dict[str, Counter[str]] = field(default_factory=dict)
    used: dict[str, Counter[str]] = field(default_factory=dict)
    sleds: dict[str, Counter[str]] = field(default_factory=dict)


@dataclass
class PaperLoad:
    """What the sheet of a person says of one of their trips.

    `sled_own` is what of the own kit is on the sled; all else of it is in the pack or stays behind.
    """

    day: int
    pack: Counter[str]
    sled: Counter[str]
    sled_own: Counter[str]
    used: Counter[str]


@dataclass
class PaperKitchen:
    """What the paper says of one kitchen on one night: each thing with how it came there."""

    place: str
    cook_group: str
    things: dict[str, list[str]] = field(default_factory=dict)


@dataclass
class Paper:
    """The days of a print-out with their trips, who sleeps where, kitchens, and what is left.

    `own_in_pieces`: of the own kit in a pack or on a sled the paper has the number of pieces only.
    """

    trips: dict[int, list[PaperTrip]] = field(default_factory=dict)
    sleep: dict[int, dict[str, list[str]]] = field(default_factory=dict)
    kitchens: dict[int, list[PaperKitchen]] = field(default_factory=dict)
    left: dict[int, dict[str, Counter[str]]] = field(default_factory=dict)
    own_in_pieces: bool = False
    people: dict[str, list[PaperLoad]] = field(default_factory=dict)


def read_paper(text: str) -> Paper:
    """Read a print-out."""
    reader = _Reader(_own_kit(text))
    for line in _whole_lines(_section(text, "Day by day")):
        reader.read(line)
    return reader.paper


class _Reader:
    """Reads the lines of the days, one after the other."""

    def __init__(self, own: dict[str, Counter[str]]) -> None:
        self.paper = Paper()
        self._own = own
        self._day = 0
        self._person = self._left = ""
        self._camp: dict[str, list[str]] = {}

    def read(self, line: str) -> None:
        """Read one whole line."""
        for pattern, read in (
            (DAY, self._read_day),
            (TRIP, self._read_trip),
            (PERSON, self._read_person),
            (CHANGE, self._read_change),
            (SLEEP, self._read_sleep),
            (KITCHEN, self._read_kitchen),
            (IN_KITCHEN, self._read_thing),
            (LEFT, self._read_left),
            (LEFT_STILL, self._read_left_still),
        ):
            if found := pattern.match(line):
                read(*found.groups())
                return
        if self._left:
            self.paper.left[self._day][self._left] += _left(line)
        elif line.startswith("      "):
            own = self._own.get(self._person, Counter())
            _read_load(self.paper.trips[self._day][-1], self._person, line, own)

    def _read_day(self, day: str) -> None:
        self._day, self._person, self._left = int(day), "", ""
        self.paper.trips[self._day], self.paper.kitchens[self._day] = [], []
        self.paper.sleep[self._day], self.paper.left[self._day] = {}, {}

    def _read_trip(self, begin: str, end: str) -> None:
        self.paper.trips[self._day].append(PaperTrip(begin, end))

    def _read_person(self, person: str) -> None:
        self._person = person

    def _read_change(self, place: str, words: str) -> None:
        self.paper.trips[self._day][-1].changes.append(_change(place, words))

    def _read_sleep(self, place: str, names: str) -> None:
        people = list(self._own) if names == "everybody" else names.split(", ")
        self.paper.sleep[self._day][place] = people
        self._camp = {}

    def _read_kitchen(self, place: str, cook_group: str) -> None:
        self._camp = dict(self._camp)
        self.paper.kitchens[self._day].append(PaperKitchen(place, cook_group, self._camp))

    def _read_thing(self, word: str, things: str) -> None:
        self._camp[word] = things.split("; ")

    def _read_left(self, place: str) -> None:
        self._left = place
        self.paper.left[self._day][place] = Counter()

    def _read_left_still(self, words: str) -> None:
        for part in words.split(", "):
            place, since = AS_BEFORE.match(part).groups()  # type: ignore[union-attr]
            self.paper.left[self._day][place] = self.paper.left[int(since)][place]


def _left(line: str) -> Counter[str]:
    """What one line says of what is left alone: of all, or of one person."""
    if found := OWNED.match(line):
        things = _things(found[2], Counter())
        return Counter({f"{thing} of {found[1]}": number for thing, number in things.items()})
    return _things(line.strip(), Counter())


def _read_load(trip: PaperTrip, person: str, line: str, own: Counter[str]) -> None:
    """What one line says of a load: of the pack, of what is in use, or of the sled."""
    if line.startswith(PACK):
        trip.packs[person] = _things(line.removeprefix(PACK), own)
    elif line.startswith(IN_USE):
        trip.used[person] = _things(line.removeprefix(IN_USE), Counter())
        # What is in use of the own kit is in no pack.
        trip.packs[person] -= trip.used[person] & own
    else:
        trip.sleds[person] = _things(line.split(": ", 1)[1], Counter())


@dataclass(frozen=True)
class Brought:
    """So many of a thing that somebody brought on a day; day 0 stands for today."""

    person: str
    day: int
    count: int


def brought_by(thing: str) -> tuple[int, str, list[Brought]]:
    """A thing of a kitchen, how many there are of it, and who brought how many of them when.

    `stove, brought today by ann`; `5 x can: 1 brought today by bob, 4 on day 2 by ann (3) and bob
    (1)`; `3 x can: 1 brought on day 2 by ann, 2 here before`.
    """
    if found := ALL_BROUGHT.match(thing):
        number, what = counted(found[1])
        return number, what, list(_shares(found[2], found[3], number))
    if found := SOME_BROUGHT.match(thing):
        number, what = counted(found[1])
        parts = [part for part in re.split(PARTS, found[2]) if not BEFORE.match(part)]
        brought: list[Brought] = []
        for part in parts:
            some = A_PART.match(part)
            assert some, part
            brought += _shares(some[2], some[3], int(some[1]))
        before = [int(found[1]) for part in [found[2]] if (found := BEFORE_LAST.search(part))]
        assert sum(one.count for one in brought) + sum(before) == number, thing
        return number, what, brought
    return *counted(thing), []


def _shares(when: str, names: str, count: int) -> Iterator[Brought]:
    """`ann (2) and bob (1)`; without numbers one is the whole, or each has one."""
    day = int(when.removeprefix("on day ")) if when != "today" else 0
    people = re.split(r", | and ", names)
    for name in people:
        person, _, number = name.partition(" (")
        each = int(number.rstrip(")")) if number else count if len(people) == 1 else 1
        yield Brought(person, day, each)


def counted(thing: str) -> tuple[int, str]:
    """How many there are of a thing: `3 x tent`."""
    found = COUNTED.match(thing)
    return (int(found[1]), found[2]) if found else (1, thing)


def _section(text: str, heading: str) -> list[str]:
    """The lines below a heading, up to the next one."""
    lines = text.splitlines()
    begin = next(n for n, line in enumerate(lines) if line.startswith(heading)) + 2
    ends = (n for n in range(begin, len(lines) - 1) if re.match(r"^-{5,}$", lines[n + 1]))
    return lines[begin : next(ends, len(lines))]


def _own_kit(text: str) -> dict[str, Counter[str]]:
    """What `own kit` stands for, by person."""
    own: dict[str, Counter[str]] = {}
    for line in _joined(_section(text, "Own kit"), lambda line: line.startswith("    ")):
        if line.strip():
            person, things = line.strip().split(" kg: ", 1)
            own[person.partition(", ")[0]] = _things(things, Counter())
    return own


def _whole_lines(lines: list[str]) -> Iterator[str]:
    """Lines with those that hang under them joined on."""
    inside = ""

    def hangs(line: str) -> bool:
        nonlocal inside
        deep = len(line) - len(line.lstrip())
        if line.startswith("    Changes hands"):
            inside = "change"
        elif PERSON.match(line):
            inside = "person"
        elif KITCHEN.match(line) or IN_KITCHEN.match(line) or SLEEP.match(line):
            inside = "kitchen"
        elif LEFT.match(line) or LEFT_STILL.match(line):
            inside = "left" if LEFT.match(line) else "kitchen"
        elif deep <= 2:
            inside = ""
        else:
            return deep == 8 or inside in ("change", "kitchen") or (inside == "left" and deep == 6)
        return False

    return _joined(lines, hangs)


def _joined(lines: list[str], hangs) -> Iterator[str]:
    whole = ""
    for line in lines:
        if hangs(line):
            whole += line.strip() if whole.endswith("-") else f" {line.strip()}"
        else:
            if whole:
                yield whole
            whole = line
    if whole:
        yield whole


def _things(words: str, own: Counter[str]) -> Counter[str]:
    """Things of a load with their counts; water and lunch have no name."""
    found: Counter[str] = Counter()
    for word in words.split("; "):
        if word == OWN:
            found += own
        elif word != "nothing" and not WATER.match(word):
            number, what = counted(word)
            found[what] += number
    return found


def _change(place: str, words: str) -> PaperChange:
    giver, taker, things = BETWEEN.match(words.rsplit(" (", 1)[0]).groups()  # type: ignore[union-attr]
    return PaperChange(place, giver, taker, _things(things, Counter()))
