"""Bin packing instances of the OR-Library, read from the folder of outside data.

J. E. Beasley, "OR-Library: distributing test problems by electronic mail", J. Oper. Res.
Soc. 41 (1990); instances of E. Falkenauer, "A hybrid grouping genetic algorithm for bin
packing", J. Heuristics 2 (1996).
"""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

BETTER_SINCE = {"u120_08": 50, "u120_19": 49}
"""Bins where the file's best of 1996 is one too many: I. P. Gent, "Heuristic solution of open
bin packing problems", J. Heuristics 3 (1998). From memory, unverified; a solve confirms it."""


@dataclass(frozen=True)
class BinPacking:
    """Pieces to be put in as few bins of one capacity as can be; `bins` is that number."""

    name: str
    capacity: int
    bins: int
    sizes: tuple[int, ...]


def uniform_instances(folder: Path) -> tuple[BinPacking, ...]:
    """The twenty instances of 120 items of 20 to 100 in bins of 150."""
    words = (folder / "reference" / "bin-packing" / "u120.txt").read_text("ascii").split()
    found, at = [], 1
    for _ in range(int(words[0])):
        name, capacity, items, bins = (
            words[at],
            int(words[at + 1]),
            int(words[at + 2]),
            words[at + 3],
        )
        at += 4
        sizes = tuple(int(word) for word in words[at : at + items])
        at += items
        found.append(BinPacking(name, capacity, BETTER_SINCE.get(name, int(bins)), sizes))
    return tuple(found)


def triplet_instances(folder: Path) -> tuple[BinPacking, ...]:
    """Five instances of 120 items that fill 40 bins of 1000 exactly, three to a bin."""
    found = []
    for path in sorted((folder / "reference" / "bin-packing").glob("t120_*.txt")):
        items, capacity, *sizes = (int(word) for word in path.read_text("ascii").split())
        assert len(sizes) == items
        found.append(BinPacking(path.stem, capacity, sum(sizes) // capacity, tuple(sizes)))
    return tuple(found)
