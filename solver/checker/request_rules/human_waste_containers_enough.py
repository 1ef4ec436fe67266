"""Human waste containers enough: the containers hold what comes together before it is packed.

Where waste comes down and the capacity of any waste container is given, on each night: sum of
capacities >= `human_waste_l_per_person_night` for each person and night since the beginning of
the stays of that night. At a stay's end full liners go into sealed sacks, which the plan
carries down. The amount is in millilitres, rounded up, for the worst night; the words say litres,
what is needed rounded up and what there is room for rounded down.

Documents: faeces-review, high-peak-waste.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from solver.checker.ledger.facts import Facts
from solver.checker.ledger.stays import read_stays
from solver.checker.queries.listed_gear import human_waste_containers
from solver.checker.queries.telling import litres_needed, litres_of_room
from solver.plan import Finding

RULE = "human_waste_containers_enough"


def human_waste_containers_enough(facts: Facts) -> Iterator[Finding]:
    """Room for waste that the containers lack before it goes into sacks."""
    problem = facts.problem
    listed = [i for i in human_waste_containers(facts) if i.capacity_ml is not None]
    if problem.waste.may_be_left or not listed:
        return
    room_ml = sum(item.count * (item.capacity_ml or 0) for item in listed)
    litres = problem.rules.number("human_waste_l_per_person_night")
    gathered = _person_nights(facts)
    day = max(gathered, key=lambda d: gathered[d], default=0)
    need_ml = math.ceil(gathered.get(day, 0) * litres * 1000 - 1e-6)
    if need_ml > room_ml:
        yield Finding(
            RULE,
            f"by the night of day {day} stays have gathered {gathered[day]} person-nights of "
            f"waste, {litres_needed(need_ml)} at {litres:g} L each; the waste containers hold "
            f"{litres_of_room(room_ml)}",
            need_ml - room_ml,
            "mL",
            (("day", day),),
            (
                f"take containers for {litres_needed(need_ml - room_ml)} more",
                "state human_waste_l_per_person_night as the containers' maker has it",
            ),
        )


def _person_nights(facts: Facts) -> dict[int, int]:
    """For each night, person-nights of the stays that it is part of, so far."""
    gathered: dict[int, int] = {}
    for stay in read_stays(facts.timeline):
        so_far = 0
        for day in stay.days:
            so_far += len(facts.night(day).sleepers_at(stay.place_id))
            gathered[day] = gathered.get(day, 0) + so_far
    return dict(sorted(gathered.items()))
