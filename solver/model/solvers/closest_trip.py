"""One trip shared out with as few changes against a former plan as its limit allows (CP-SAT)."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence

from ortools.sat.python import cp_model

from solver.model.assignment.draft import Held
from solver.model.formulation.former import Former
from solver.model.formulation.frame import Frame
from solver.model.formulation.spread_slack import Slack
from solver.model.run import Run
from solver.model.solvers.exact_trip import build_trip

_PER_UNIT, _SINGLE, _REPACKED = 400, 100, 1
"""What a unit that somebody newly has costs, a single piece more, so that bags move rather, and
one that is in another pack or sled than before."""


def closest_trip(
    frame: Frame,
    trip: int,
    riding: dict[int, int],
    slack: Slack,
    run: Run,
    *,
    former: Former,
    limit: int,
) -> Held | None:
    """Loads under a limit [1/10,000] with the fewest units with people who did not have them.

    None where there are none, or none were found in time.
    Ties go to units that stay in the pack or on the sled that they were in.
    """
    built = build_trip(frame, trip, riding, slack, limit)
    with_person: dict[tuple[str, str], list[cp_model.IntVar]] = defaultdict(list)
    in_carrier: dict[tuple[str, str], list[cp_model.IntVar]] = defaultdict(list)
    most: dict[str, int] = defaultdict(int)
    single = set()
    for cargo, units in riding.items():
        thing = frame.world.cargo[cargo]
        most[thing.unit_id] += units
        if thing.item is not None and thing.item.is_single:
            single.add(thing.unit_id)
        for carrier in frame.may_carry[cargo, trip]:
            part = built.held[cargo, carrier.carrier_id]
            with_person[thing.unit_id, carrier.person_id].append(part)
            in_carrier[thing.unit_id, carrier.carrier_id].append(part)
    new, prices = [], []

    def price(parts: Sequence[cp_model.IntVar], before: int, most_units: int, cost: int) -> None:
        more = built.model.new_int_var(0, most_units, "")
        built.model.add(more >= cp_model.LinearExpr.sum(list(parts)) - before)
        new.append(more)
        prices.append(cost)

    for (unit_id, person_id), parts in with_person.items():
        cost = _PER_UNIT + _SINGLE * (unit_id in single)
        price(parts, former.had[trip][unit_id, person_id], most[unit_id], cost)
    for (unit_id, carrier_id), parts in in_carrier.items():
        price(parts, former.packed[trip][unit_id, carrier_id], most[unit_id], _REPACKED)
    built.model.minimize(cp_model.LinearExpr.weighted_sum(new, prices))
    solver = run.solver()
    status = solver.solve(built.model)
    if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return None
    return {key: units for key, part in built.held.items() if (units := solver.value(part))}
