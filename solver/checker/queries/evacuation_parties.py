"""Who could take an ill person down while the others stay."""

from __future__ import annotations

from solver.checker.ledger.facts import Facts
from solver.checker.queries.words import counted
from solver.problem import Person

MOST_MORE_PEOPLE = 12
"""How many people more are tried to say how many it would take."""


class PartySearch:
    """Looks for the fewest companions with whom both parties are such as the rules accept."""

    def __init__(self, facts: Facts, ill: Person, least: int) -> None:
        self._ill, self._least = ill, least
        self._guided = facts.problem.is_guided
        rules = facts.problem.rules
        self._companions = rules.whole("evacuation_companions")
        self._ratio = rules.whole("clients_per_guide")

    def best(self, others: list[Person]) -> tuple[list[Person], list[Person]] | None:
        """Those who leave, the ill person first, and those who stay; None for no such split."""
        able_first = sorted(
            others,
            key=lambda p: (p.load_limit_g is not None, p.rope_team_id != self._ill.rope_team_id),
        )
        guides = [person for person in able_first if person.is_guide]
        clients = [person for person in able_first if not person.is_guide]
        sizes = [(g, c) for g in range(len(guides) + 1) for c in range(len(clients) + 1)]
        for g, c in sorted(sizes, key=lambda size: (sum(size), size[0])):
            companions = [*guides[:g], *clients[:c]]
            taken = {person.person_id for person in companions}
            staying = [person for person in others if person.person_id not in taken]
            if self._may_leave(companions) and self._may_be(staying, self._clients(staying)):
                return [self._ill, *companions], staying
        return None

    def people_missing(self, others: list[Person]) -> str:
        """The fewest people more with whom there would be a split, in words."""
        for more in range(1, MOST_MORE_PEOPLE + 1):
            for guides in range(more + 1 if self._guided else 1):
                extra = [
                    Person(f"more {n}", self._ill.caps, 0, "", "", is_guide=n < guides)
                    for n in range(more)
                ]
                if self.best([*others, *extra]) is not None:
                    return _people_words(guides, more - guides)
        return f"more than {MOST_MORE_PEOPLE} people more"

    def _may_leave(self, companions: list[Person]) -> bool:
        able = [person for person in companions if person.load_limit_g is None]
        clients = self._clients(companions) + (not self._ill.is_guide)
        size = len(companions) + 1
        return (
            len(able) >= self._companions
            and size >= self._least
            and self._guides_do(companions, clients)
        )

    def _may_be(self, staying: list[Person], clients: int) -> bool:
        return bool(staying) and len(staying) >= self._least and self._guides_do(staying, clients)

    def _guides_do(self, people: list[Person], clients: int) -> bool:
        guides = sum(person.is_guide for person in people)
        return not self._guided or (guides > 0 and clients <= guides * self._ratio)

    @staticmethod
    def _clients(people: list[Person]) -> int:
        return sum(not person.is_guide for person in people)


def _people_words(guides: int, others: int) -> str:
    parts = [counted(guides, "guide")] if guides else []
    if others:
        parts.append("1 person" if others == 1 else f"{others} people")
    return f"{' and '.join(parts)} more"
