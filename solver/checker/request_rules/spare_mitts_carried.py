"""Spare mitts carried: a rope team that loses a mitt to the wind has another pair.

For each rope team and each of its trips: pairs of spare mitts riding with it >= the least number.
Shared pairs that ride with several rope teams are divided among them. Not asked where nobody's
clothing is given.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.facts import Facts
from solver.checker.queries.parties import units_riding
from solver.checker.queries.personal import lists_clothing
from solver.checker.queries.telling import trips_words
from solver.checker.queries.words import counted
from solver.plan import Finding
from solver.problem import Purpose, Trip

RULE = "spare_mitts_carried"


def spare_mitts_carried(facts: Facts) -> Iterator[Finding]:
    """For each set of rope teams that travel together, the trips with too few pairs."""
    roster = facts.problem.roster
    if not any(lists_clothing(facts, person.person_id) for person in roster):
        return
    teams = {person.person_id: person.rope_team_id for person in facts.problem.everybody}
    together: dict[tuple[str, ...], list[Trip]] = {}
    for trip in facts.timeline.trips:
        on_it = tuple(dict.fromkeys(teams[person] for person in trip.person_ids))
        together.setdefault(on_it, []).append(trip)
    each = facts.problem.rules.whole("spare_mitts_pairs")
    for on_it, trips in together.items():
        needed = each * len(on_it)
        riding = {t.index: units_riding(facts, Purpose.SPARE_MITTS, t) for t in trips}
        short = [trip for trip in trips if riding[trip.index] < needed]
        if not short:
            continue
        has = min(riding[trip.index] for trip in short)
        yield Finding(
            RULE,
            f"{counted(has, 'pair')} of spare mitts with {counted(len(on_it), 'rope team')} on "
            f"{trips_words(short)}, {needed} needed: {each} for each rope team",
            needed - has,
            "units",
            (("day", short[0].day), ("person", short[0].person_ids[0])),
            (f"{counted(needed - has, 'pair')} of spare mitts more that must ride every trip",),
        )
