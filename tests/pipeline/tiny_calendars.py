"""Routes and calendars of tiny worlds: two people, two to four days, two or three places.

Days are written as the places visited, one letter each: `aba` is a carry, `b` a day without
travel, `baba` a relayed descent. A day with a stroke splits the two people: left of it what
the first rope team does, right of it the second.
"""

from __future__ import annotations

from dataclasses import dataclass

from solver.problem import Calendar, Day, Visit


@dataclass(frozen=True)
class Shape:
    """A calendar in letters, and which of its places nobody sleeps at."""

    days: str
    not_slept_at: str = ""

    @property
    def places(self) -> str:
        """The letters of all places, outward."""
        return "".join(sorted(set(self.days) - set(" |")))

    @property
    def splits(self) -> bool:
        """Whether the two people ever go separate ways."""
        return "|" in self.days

    @property
    def splits_at_night(self) -> bool:
        """Whether the two people ever sleep at different places."""
        return any(_last(day, 0) != _last(day, 1) for day in self.days.split())

    def calendar(self, team_ids: tuple[str, str]) -> Calendar:
        """The calendar for two rope teams, which may be one and the same."""
        teams = tuple(dict.fromkeys(team_ids))
        days = []
        for day in self.days.split():
            if "|" not in day:
                days.append(Day((Visit(teams, tuple(day)),)))
            else:
                sides = zip(team_ids, day.split("|"), strict=True)
                days.append(Day(tuple(Visit((team,), tuple(side)) for team, side in sides)))
        return Calendar(tuple(days))


def _last(day: str, side: int) -> str:
    return day.split("|")[side if "|" in day else 0][-1]


TOGETHER: tuple[Shape, ...] = (
    Shape("ab ba"),
    Shape("abab ba"),
    Shape("ab baba"),
    Shape("aba ab ba"),
    Shape("ab b ba"),
    Shape("abab b ba"),
    Shape("aba ab baba"),
    Shape("ab bc cba"),
    Shape("ab bcb ba", not_slept_at="c"),
    Shape("ab bcbc cba"),
    Shape("ab bc cbcba"),
    Shape("ab bc cb ba"),
    Shape("aba ab bc cba"),
    Shape("ab bcb bc cba"),
    Shape("aba abc cba", not_slept_at="b"),
    Shape("abc cbc cba", not_slept_at="b"),
    Shape("ab b bcb ba", not_slept_at="c"),
    Shape("abc cb ba"),
    Shape("ab bc cba a"),
    Shape("ab bcb bcb ba", not_slept_at="c"),
    Shape("abc cb bc cba"),
)

SPLIT: tuple[Shape, ...] = (
    Shape("ab bcb|b ba", not_slept_at="c"),
    Shape("ab ba|baba"),
    Shape("ab|abab ba"),
    Shape("ab bab|b ba"),
    Shape("ab ba|b a|ba"),
    Shape("aba|ab ab|b ba"),
    Shape("ab bc|b cba|ba"),
    Shape("ab bcb|bab ba", not_slept_at="c"),
)
