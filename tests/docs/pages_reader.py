"""Somebody who was not there reads the printed pages: answers from their HTML alone.

Nothing here knows the plan that was printed, nor the program that printed it. Short names of places
are read from the first sheet.
"""

from __future__ import annotations

import re
from collections import Counter
from html.parser import HTMLParser

from tests.docs.paper_reader import (
    Paper,
    PaperChange,
    PaperKitchen,
    PaperLoad,
    PaperTrip,
    counted,
)

DAY = re.compile(r"^day-(\d+)$")
TRIP = re.compile(r"^\d+\. (.+), (?:outbound|homeward), [a-z ]+$")
OWN_KIT = re.compile(r"^own kit \((\d+) pieces?, [\d.]+ kg\)$")
WATER = re.compile(r"^water [\d.]+ kg, lunch [\d.]+ kg$")
SLEEP = re.compile(r"^Sleep at (.+): (.+)\.$")
IN_USE = "In use, in no load: "
NOTHING = "–"
_WORDS = ("p", "h2", "caption", "th", "td")
OWN = "own kit"


class PageTable:
    """A table of a page with its caption, the names of its columns, and its rows."""

    def __init__(self) -> None:
        self.caption = ""
        self.columns: list[str] = []
        self.rows: list[list[str]] = []


class Pages(HTMLParser):
    """The sections of a file by id, each with its paragraphs and tables in their order."""

    def __init__(self, html: str) -> None:
        super().__init__()
        self.sections: dict[str, list[str | PageTable]] = {}
        self._blocks: list[str | PageTable] = []
        self._words: list[str] | None = None
        self.feed(html)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Begin a section, a table, a row, or words."""
        if tag == "section":
            self._blocks = self.sections.setdefault(str(dict(attrs)["id"]), [])
        elif tag == "table":
            self._blocks.append(PageTable())
        elif tag == "tr":
            self._table.rows.append([])
        if tag in _WORDS:
            self._words = []

    def handle_data(self, data: str) -> None:
        """Take the words of what has begun."""
        if self._words is not None:
            self._words.append(data)

    def handle_endtag(self, tag: str) -> None:
        """End words, and rows that were heads."""
        words = "".join(self._words or ()).replace("\u200b", "")
        if tag in ("p", "h2"):
            self._blocks.append(words)
        elif tag == "caption":
            self._table.caption = words
        elif tag in ("th", "td"):
            self._table.rows[-1].append(words)
        elif tag == "thead":
            self._table.columns, self._table.rows = self._table.rows[-1], []
        self._words = None if tag in _WORDS else self._words

    @property
    def _table(self) -> PageTable:
        table = self._blocks[-1]
        assert isinstance(table, PageTable)
        return table


def read_pages(html: str) -> Paper:
    """Read the first sheet, those of the days, and on those of the people their names.

    Of the own kit the sheets of the days have the number of pieces only.
    """
    pages = Pages(html)
    cover = " ".join(block for block in pages.sections["cover"] if isinstance(block, str))
    legend = re.search(r"Places: (.+)\.$", cover)
    assert legend
    places = dict(re.match(r"(.+) \((\S+)\)$", part).groups() for part in legend[1].split(", "))  # type: ignore[union-attr]
    paper = Paper(own_in_pieces=True)
    for section_id, blocks in pages.sections.items():
        if section_id.startswith("person-"):
            trips = next(b for b in blocks if isinstance(b, PageTable) and b.caption == "All trips")
            paper.people[str(blocks[0])] = [_load(row) for row in trips.rows]
    everybody = list(paper.people)
    for section_id, blocks in pages.sections.items():
        if found := DAY.match(section_id):
            _Sheet(paper, int(found[1]), places, everybody).read(blocks)
    return paper


class _Sheet:
    """Reads the sheet of one day."""

    def __init__(
        self, paper: Paper, day: int, places: dict[str, str], everybody: list[str]
    ) -> None:
        self._paper, self._places, self._everybody = paper, places, everybody
        self._trips = paper.trips.setdefault(day, [])
        self._sleep = paper.sleep.setdefault(day, {})
        self._left = paper.left.setdefault(day, {})
        self._kitchens = paper.kitchens.setdefault(day, [])

    def read(self, blocks: list[str | PageTable]) -> None:
        """Read what stands on the sheet, from top to bottom."""
        for block in blocks:
            if isinstance(block, str):
                self._read_line(block)
            elif found := TRIP.match(block.caption):
                self._read_trip(found[1], block)
            elif block.caption == "What changes hands":
                for row in block.rows:
                    self._read_change(row)
            elif block.caption == "Kitchens and shelter":
                self._read_kitchens(block)
            elif block.caption == "Left alone tonight":
                for name, words in block.rows:
                    self._read_left(self._places[name], words)

    def _read_line(self, line: str) -> None:
        if line.startswith(IN_USE):
            for part in line.removeprefix(IN_USE).removesuffix(".").split("; "):
                thing, _, names = part.rpartition(": ")
                for who in _names(names, list(self._trips[-1].packs)):
                    self._trips[-1].used.setdefault(who, Counter())[thing] += 1
        elif found := SLEEP.match(line):
            self._sleep[self._places[found[1]]] = _names(found[2], self._everybody)

    def _read_trip(self, way: str, table: PageTable) -> None:
        begin, end = next(
            (one, other)
            for one in self._places
            for other in self._places
            if way == f"{one} to {other}"
        )
        trip = PaperTrip(self._places[begin], self._places[end])
        for row in table.rows:
            trip.packs[row[0]], trip.sleds[row[0]] = _things(row[4]), _things(row[5])
        self._trips.append(trip)

    def _read_change(self, row: list[str]) -> None:
        step, place, giver, taker, things, *_ = row
        change = PaperChange(self._places[place], giver, taker, _things(things))
        self._trips[int(step) - 1].changes.append(change)

    def _read_kitchens(self, table: PageTable) -> None:
        shared: dict[tuple[str, str], list[str]] = {}
        for name, whose, word, things in table.rows:
            place, told = self._places[name], things.replace(" × ", " x ").split("; ")
            if whose == "all" and word in ("stove", "pot", "shelter"):
                shared[place, word] = told
                continue
            if not self._kitchens or self._kitchens[-1].cook_group != whose:
                common = {kind: said for (where, kind), said in shared.items() if where == place}
                self._kitchens.append(PaperKitchen(place, whose, common))
            self._kitchens[-1].things[word] = told

    def _read_left(self, place: str, words: str) -> None:
        if found := re.match(r"^as on day (\d+)$", words):
            self._left[place] = self._paper.left[int(found[1])][place]
            return
        left: Counter[str] = Counter()
        shared, *owned = re.split(r"(?:^|\. )[Oo]f (?=\S+: )", words)
        left += _things(shared) if shared else Counter()
        for part in owned:
            who, things = part.split(": ", 1)
            for thing, number in _things(things).items():
                left[f"{thing} of {who}"] += number
        self._left[place] = left


def _load(row: list[str]) -> PaperLoad:
    """A trip on the sheet of a person: the own kit comes last in the pack and on the sled."""
    pack, _, sled = row[5].partition(". On the sled: ")
    pack = pack.split("own kit (")[0].removesuffix("; ")
    sled, _, own = sled.partition("of the own kit: ")
    parts = (pack, sled.removesuffix("; "), own, row[6])
    return PaperLoad(int(row[0]), *(_things(part) if part else Counter() for part in parts))


def _names(words: str, everybody: list[str]) -> list[str]:
    """People by name."""
    return everybody if words == "everybody" else words.split(", ")


def _things(words: str) -> Counter[str]:
    """Things with their counts; of the own kit the number of pieces; water and lunch left out."""
    found: Counter[str] = Counter()
    for word in words.split("; "):
        if own := OWN_KIT.match(word):
            found[OWN] += int(own[1])
        elif word != NOTHING and not WATER.match(word):
            number, what = counted(word.replace(" × ", " x ", 1))
            found[what] += number
    return found
