"""One trip with as few changes against a former plan, made among fewer people.

Where two people can settle it, a third should not have to repack.
"""

from __future__ import annotations

from collections import Counter

from solver.model.assignment.by_trip import join_one
from solver.model.assignment.draft import Held
from solver.model.assignment.former_loads import had_by
from solver.model.formulation.former import Former, Had
from solver.model.formulation.frame import Frame
from solver.model.formulation.spread_slack import Slack
from solver.model.run import Run
from solver.model.solvers.closest_trip import closest_trip, is_single
from solver.quantities import FRACTION_GRID


def among_fewer_people(
    frame: Frame,
    trip: int,
    held: Held,
    slack: Slack,
    run: Run,
    *,
    former: Former,
    limit: int,
) -> Held:
    """The loads, or as near ones that change only for those who must change and one other.

    Those who must are above the limit [1/10,000] with what they had. The other is one with room.
    """
    had = had_by(frame, join_one(trip, held))[trip]
    changed = _people(former.had[trip] - had) | _people(had - former.had[trip])
    riding: Counter[int] = Counter()
    for (cargo, _), units in held.items():
        riding[cargo] += units
    room = _room(frame, trip, riding, former, limit)
    over = {person_id for person_id, left in room.items() if left < 0}
    if not over or len(over) + 1 >= len(changed):
        return held
    for other in sorted(room.keys() - over, key=lambda person_id: (-room[person_id], person_id)):
        if room[other] + sum(room[person_id] for person_id in over) < 0:
            break
        few = closest_trip(
            frame,
            trip,
            dict(riding),
            slack,
            run,
            former=former,
            limit=limit,
            only=frozenset(over | {other}),
        )
        if few is not None and _cost(frame, trip, few, former) <= _cost(frame, trip, held, former):
            return few
    return held


def _people(units: Had) -> set[str]:
    return {person_id for _, person_id in units}


def _room(
    frame: Frame, trip: int, riding: Counter[int], former: Former, limit: int
) -> dict[str, int]:
    """What each person may take beside what they had, at most [g]: less than 0 is too much."""
    mass_g = {frame.world.cargo[i].unit_id: frame.weight(i, trip, of_mass=True) for i in riding}
    had_g: Counter[str] = Counter()
    for (unit_id, person_id), units in former.had[trip].items():
        had_g[person_id] += units * mass_g.get(unit_id, 0)
    caps_g: dict[str, dict[tuple[bool, bool], int]] = {}
    for row in frame.load_rows[trip]:
        if row.of_mass:
            cap = row.cap * limit // FRACTION_GRID if row.in_fraction else row.cap
            of_person = caps_g.setdefault(row.person_id, {})
            key = row.in_pack, row.in_sled
            of_person[key] = min(cap - row.fixed, of_person.get(key, cap - row.fixed))
    return {
        person_id: min(
            caps.get((True, True), 2**40),
            caps.get((True, False), 2**40) + caps.get((False, True), 0),
        )
        - had_g[person_id]
        for person_id, caps in caps_g.items()
    }


def _cost(frame: Frame, trip: int, held: Held, former: Former) -> tuple[int, int]:
    """The units that people newly have, and how many of them are single pieces."""
    single = {frame.world.cargo[cargo].unit_id for cargo, _ in held if is_single(frame, cargo)}
    new = had_by(frame, join_one(trip, held))[trip] - former.had[trip]
    return new.total(), sum(units for (unit_id, _), units in new.items() if unit_id in single)
