"""What a sweep has asked so far: one line of JSON for each world, so that it can go on later.

Several processes may write to one record, each its own share of the worlds.
"""

from __future__ import annotations

import json
from collections import Counter
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from tests.pipeline.sweep_waivers import Swept


@dataclass(frozen=True)
class Record:
    """A file with a line for each world that was swept; no file yet is an empty record."""

    path: Path

    def lines(self) -> list[dict[str, Any]]:
        """All lines; one that was cut off by an interruption counts as not written."""
        if not self.path.exists():
            return []
        read = []
        for line in self.path.read_text(encoding="utf-8").splitlines():
            try:
                read.append(json.loads(line))
            except json.JSONDecodeError:
                continue
        return read

    def done(self, family: str) -> set[int]:
        """The numbers of the worlds of a family that have been swept."""
        return {line["number"] for line in self.lines() if line["family"] == family}

    def add(self, family: str, number: int, swept: Swept) -> None:
        """Write down one world."""
        line = {
            "family": family,
            "number": number,
            "ends": dict(swept.ends),
            "disagreements": list(swept.disagreements),
        }
        with self.path.open("a", encoding="utf-8") as file:
            file.write(json.dumps(line) + "\n")

    def summary(self) -> tuple[str, int]:
        """All that is on record in a line of words for each disagreement and a count; how many."""
        lines = self.lines()
        ends: Counter[str] = Counter()
        for line in lines:
            ends.update(line["ends"])
        told = [words for line in lines for words in line["disagreements"]]
        counts = ", ".join(f"{count} {end}" for end, count in sorted(ends.items()))
        total = f"{len(lines)} worlds, {sum(ends.values())} combinations ({counts})"
        return "\n".join([*told, f"{total}: {len(told)} disagreements"]), len(told)
