"""One trip shared out with as few changes against a former plan as its limit allows (CP-SAT).

It counts the units that stay, not those that come: a variable that is at most what somebody had
and has bounds the search far better than one that is at least what is new.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator

from solver.model.assignment.draft import Held
from solver.model.cp_sat import cp_model
from solver.model.formulation.former import Former, Had
from solver.model.formulation.frame import Frame
from solver.model.formulation.spread_slack import Slack
from solver.model.run import Run
from solver.model.solvers.exact_trip import TripModel, build_trip

_Parts = dict[tuple[str, str], list[cp_model.IntVar]]
"""The variables that add up to the units of an id with a person, or in a carrier."""


def closest_trip(
    frame: Frame,
    trip: int,
    riding: dict[int, int],
    slack: Slack,
    run: Run,
    *,
    former: Former,
    limit: int,
    only: frozenset[str] | None = None,
) -> Held | None:
    """Loads under a limit [1/10,000] with the fewest units with people who did not have them.

    None where there are none, or none were found in time. Of as few, those with the fewest single
    pieces among them, so that bags move rather; of these, those with the most units in the pack or
    on the sled that they were in. With `only`, what all others had stays as it was.
    """
    built = build_trip(frame, trip, riding, slack, limit)
    with_person, in_carrier = _parts(frame, trip, riding, built)
    for (unit_id, person_id), parts in with_person.items():
        if only is not None and person_id not in only:
            there = former.had[trip][unit_id, person_id]
            built.model.add(cp_model.LinearExpr.sum(parts) == there)
    single = {frame.world.cargo[cargo].unit_id for cargo in riding if is_single(frame, cargo)}
    # One change counts more than all changes together of the kinds after it.
    of_single = sum(riding.values()) + 1
    of_any = of_single * (sum(units for c, units in riding.items() if is_single(frame, c)) + 1)
    staying, worth = [], []
    for (unit_id, _), stays in _staying(built, with_person, former.had[trip]):
        staying.append(stays)
        worth.append(of_any + of_single * (unit_id in single))
    for _, stays in _staying(built, in_carrier, former.packed[trip]):
        staying.append(stays)
        worth.append(1)
    built.model.maximize(cp_model.LinearExpr.weighted_sum(staying, worth))
    solver = run.solver()
    # On trips of this kind both take a quarter of the time and find nothing.
    solver.parameters.cp_model_probing_level = 0
    solver.parameters.symmetry_level = 0
    status = solver.solve(built.model)
    if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return None
    return {key: units for key, part in built.held.items() if (units := solver.value(part))}


def is_single(frame: Frame, cargo: int) -> bool:
    """Whether it is a single piece of shared kit."""
    item = frame.world.cargo[cargo].item
    return item is not None and item.is_single


def _parts(
    frame: Frame, trip: int, riding: dict[int, int], built: TripModel
) -> tuple[_Parts, _Parts]:
    """What people have, and what is in each pack and on each sled."""
    with_person: _Parts = defaultdict(list)
    in_carrier: _Parts = defaultdict(list)
    for cargo in riding:
        unit_id = frame.world.cargo[cargo].unit_id
        for carrier in frame.may_carry[cargo, trip]:
            part = built.held[cargo, carrier.carrier_id]
            with_person[unit_id, carrier.person_id].append(part)
            in_carrier[unit_id, carrier.carrier_id].append(part)
    return with_person, in_carrier


def _staying(
    built: TripModel, parts: _Parts, before: Had
) -> Iterator[tuple[tuple[str, str], cp_model.IntVar]]:
    """Units that stay where they were: at most what was there, and at most what is there."""
    for key, here in parts.items():
        if before[key] > 0:
            stays = built.model.new_int_var(0, before[key], "")
            built.model.add(stays <= cp_model.LinearExpr.sum(here))
            yield key, stays
