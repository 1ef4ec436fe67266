"""A person is fetched by an aircraft or a rescue team: who waits with them, and with what.

If the leader names companions, these wait and leave with the person, and the others go on at once.
Otherwise everybody at the place waits, and the others go on once the person has been fetched.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

from solver.problem import Person, Problem
from solver.rest.parting import Counts
from solver.rest.taken import nights_of_food, take_for_a_wait


@dataclass(frozen=True, slots=True)
class UntilFetched:
    """The wait at a place: who stays with a hurt person, and what has to be there so long.

    `things` are counts by (place, unit id) for so many `nights`. `missing` is what is not there, in
    words. If `others_go_on`, those who stay on the expedition do not wait and go on without it.
    """

    with_them: tuple[str, ...]
    nights: int
    things: tuple[tuple[str, str, int], ...]
    missing: tuple[str, ...]
    others_go_on: bool

    @property
    def taken(self) -> Counts:
        """What those who go on do not have, by (place, unit id)."""
        if not self.others_go_on:
            return {}
        return Counter({(place, unit): count for place, unit, count in self.things})


def until_fetched(
    problem: Problem,
    leaving: Sequence[Person],
    there: Sequence[Person],
    place_id: str,
    *,
    are_named: bool,
) -> UntilFetched:
    """Who waits with the first of those who leave, and what they need at the place.

    `there` is everybody at the place. `are_named` says that the leader chose who waits. The history
    has its standing filled in.
    """
    waiting = leaving if are_named else there
    ill = leaving[0].person_id
    others = len(there) - len(waiting)
    taken = take_for_a_wait(problem, waiting, others, place_id)
    return UntilFetched(
        with_them=tuple(p.person_id for p in waiting if p.person_id != ill),
        nights=nights_of_food(problem, ()),
        things=tuple((place, unit, n) for (place, unit), n in sorted(taken.counts.items()) if n),
        missing=tuple(taken.missing),
        others_go_on=are_named,
    )
