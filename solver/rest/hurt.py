"""A person who is hurt and has to go down, and what comes of it, as frozen data."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from solver.problem import Day
from solver.rest.fetched import UntilFetched
from solver.rest.result import Rest
from solver.rest.two_parties import HurtLimit
from solver.rest.way_down import Haul


class How(StrEnum):
    """How a hurt person gets down."""

    WALKS = "walks"
    HAULED = "hauled"
    FLIES = "flies"
    NOT_HURT = "not_hurt"
    """The party divides: a person goes home for another reason, with a full load."""


@dataclass(frozen=True, slots=True)
class Hurt:
    """Who is hurt and how they get down.

    `companions` None: the fewest with whom both parties keep the rules on people. `days` None:
    their last way home in the followed plan. `litter_g` is litter, straps and wraps, if the
    person is hauled.
    """

    person_id: str
    how: How
    companions: tuple[str, ...] | None = None
    days: tuple[Day, ...] | None = None
    litter_g: int = 6000


@dataclass(frozen=True, slots=True)
class Evacuation:
    """What comes of it; `down` is the rest of those who leave, None if nobody walks down.

    `taken` and `left_behind` are units by (place, unit id). What is left behind belongs to those
    who leave, or nobody stays who could use it. `missing` is what there is too little of for two
    parties, in words. `outside` is what help from outside would need to bring or do. `sleds_left`
    stay where they are. `until_fetched` is the wait of a person who is fetched. `limit` is what a
    hurt person who goes down may carry. The others have `next_day` before them.
    """

    hurt: Hurt
    place_id: str
    leaving: tuple[str, ...]
    staying: tuple[str, ...]
    taken: tuple[tuple[str, str, int], ...]
    left_behind: tuple[tuple[str, str, int], ...]
    missing: tuple[str, ...]
    outside: tuple[str, ...]
    haul: Haul | None
    down: Rest | None
    sleds_left: tuple[str, ...] = ()
    until_fetched: UntilFetched | None = None
    limit: HurtLimit | None = None
    next_day: int = 1

    @property
    def is_possible(self) -> bool:
        """Whether those who leave can get down by themselves."""
        is_hauled = self.haul is None or not self.haul.cannot
        return self.down is not None and self.down.is_solved and is_hauled
