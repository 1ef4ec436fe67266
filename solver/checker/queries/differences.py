"""Claims of a plan that differ from the replay, gathered by what they are about."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from solver.checker.queries.telling import Where
from solver.plan import Finding


@dataclass(slots=True)
class _Difference:
    """All claims that differ about one thing; figures and place are those of the first."""

    words: str
    where: Where
    amount: int
    entries: int = 1


class Differences:
    """Differences gathered by what they are about, in the order met."""

    def __init__(self, rule_id: str) -> None:
        self._rule_id = rule_id
        self._met: dict[tuple[str, str], _Difference] = {}

    def add(
        self, *, about: str, unit: str, claimed: int, true: int, words: str, where: Where
    ) -> None:
        """Note a claim, unless it is true."""
        if claimed == true:
            return
        amount = abs(claimed - true)
        known = self._met.get((about, unit))
        if known is None:
            words = f"{words}: the plan says {claimed} {unit}, it is {true} {unit}"
            self._met[about, unit] = _Difference(words, where, amount)
        else:
            known.amount = max(known.amount, amount)
            known.entries += 1

    def findings(self) -> Iterator[Finding]:
        """One finding for each thing, with the largest difference and how many there are."""
        for (_, unit), met in self._met.items():
            more = "" if met.entries == 1 else f"; {met.entries} entries differ"
            yield Finding(self._rule_id, met.words + more, met.amount, unit, met.where)
