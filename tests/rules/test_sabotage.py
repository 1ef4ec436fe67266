"""Plans spoiled on purpose: each slip is caught by the rule it breaks, and told briefly.

The file is long because it is one list of slips.
"""

from collections import Counter
from dataclasses import replace
from random import Random

import pytest

from solver.checker import check
from solver.plan import NightStock, Stowed, TripLoads
from solver.rulebook.goals import goals_asked
from solver.rulebook.ledger import LEDGER
from tests.rules.rich_world import PLAN, WORLD
from tests.rules.sabotage import (
    entries,
    garbled,
    in_load,
    in_trip_of,
    put,
    shift,
    without_stock,
)
from tests.rules.worlds import found

EDITED = without_stock(PLAN)
UP, CARRY, BACK, MOVE, DOWN, HOME = range(6)


def _pack(trip: int, person_id: str) -> tuple[int, str, bool]:
    return trip, person_id, False


def _sled(trip: int) -> tuple[int, str, bool]:
    return trip, "m1", True


SABOTAGE = (
    (
        "a bag for c1 left at the start",
        put(EDITED, _sled(UP), "g1/low", -1),
        {"reserves_held": 1, "units_conserved": 1},
    ),
    (
        "all food for a night eaten by nobody",
        put(put(EDITED, _pack(CARRY, "m1"), "g1/high", -3), _pack(CARRY, "m3"), "g1/high", -2),
        {"night_sets_held": 2, "reserves_held": 1, "units_conserved": 3},
    ),
    (
        "a bag for the high camp left at c1",
        put(EDITED, _pack(MOVE, "m3"), "g1/high", -1),
        {"reserves_held": 1, "units_conserved": 1},
    ),
    (
        "a can left at the start",
        put(EDITED, _pack(UP, "m2"), "g1/can", -1),
        {"reserves_held": 1, "units_conserved": 1},
    ),
    (
        "the open can left at c1",
        put(EDITED, _pack(MOVE, "m2"), "g1/can/open-2", -1),
        {"fuel_held": 1},
    ),
    (
        "the tent left at c1",
        put(EDITED, _pack(MOVE, "m1"), "tent", -1),
        {"nightly_items_held": 1, "units_conserved": 1},
    ),
    (
        "the rope left on the carry",
        put(put(EDITED, _pack(CARRY, "m2"), "rope", -1), _pack(BACK, "m2"), "rope", -1),
        {"party_kit_carried": 2},
    ),
    (
        "the rope forgotten above after the carry",
        put(EDITED, _pack(BACK, "m2"), "rope", -1),
        {"party_kit_carried": 1, "nightly_items_held": 1, "units_conserved": 1},
    ),
    (
        "a parka on the sled",
        shift(EDITED, "m1/parka", _pack(HOME, "m1"), _sled(HOME)),
        {},
    ),
    (
        "snowshoes on the sled",
        shift(EDITED, "m1/snowshoes", _pack(UP, "m1"), _sled(UP)),
        {"day_kit_carried": 1},
    ),
    (
        "snowshoes in another's pack",
        shift(EDITED, "m3/snowshoes", _pack(MOVE, "m3"), _pack(MOVE, "m2")),
        {"day_kit_carried": 1, "owner_carries": 1},
    ),
    (
        "a sleeping bag in another's pack",
        shift(EDITED, "m2/bag", _pack(DOWN, "m2"), _pack(DOWN, "m3")),
        {"owner_carries": 1},
    ),
    (
        "the pole taken further",
        put(put(EDITED, _pack(MOVE, "m3"), "pole", 1), _pack(DOWN, "m3"), "pole", 1),
        {"items_in_place": 1, "goes_no_further": 1},
    ),
    (
        "both stoves in one pack",
        shift(EDITED, "stove", _pack(MOVE, "m3"), _pack(MOVE, "m2")),
        {"kinds_kept_apart": 1},
    ),
    (
        "both cans of the carry in one pack",
        shift(EDITED, "g1/can", _pack(CARRY, "m3"), _pack(CARRY, "m2")),
        {"fuel_spread": 1},
    ),
    (
        "an empty can left at c1",
        put(EDITED, _pack(HOME, "m2"), "g1/can/empty-1", -1),
        {"everything_returns": 1},
    ),
    (
        "waste left at c2",
        put(
            put(EDITED, _pack(DOWN, "m3"), "human-waste/c2/1-1", -1),
            _sled(HOME),
            "human-waste/c2/1-1",
            -1,
        ),
        {"everything_returns": 1},
    ),
    (
        "the same rope twice on one trip",
        put(EDITED, _pack(MOVE, "m1"), "rope", 1),
        {"units_conserved": 1},
    ),
    (
        "a container that never ran dry",
        put(EDITED, _pack(HOME, "m3"), "g1/can/empty-3", 1),
        {"units_conserved": 1},
    ),
    (
        "a bag of nothing known",
        put(EDITED, _pack(CARRY, "m1"), "g1/middle", 2),
        {"units_conserved": 2},
    ),
    (
        "a negative count",
        put(EDITED, _pack(CARRY, "m1"), "tent", -3),
        {"units_conserved": 3},
    ),
    (
        "the sled on a pack leg",
        in_load(
            EDITED,
            (CARRY, "m1"),
            lambda x: replace(x, sled_id="s1", sled=x.pack[2:], pack=x.pack[:2]),
        ),
        {"sled_only_on_sled_legs": 3},
    ),
    (
        "the sled left at c1",
        in_load(
            EDITED,
            (HOME, "m1"),
            lambda x: replace(x, sled_id=None, sled=(), pack=(*x.pack, *x.sled)),
        ),
        {"sled_only_on_sled_legs": 1},
    ),
    (
        "a stranger carries",
        in_load(EDITED, (BACK, "m2"), lambda x: replace(x, person_id="m7")),
        {"units_ride_with_people": 4, "day_kit_carried": 2, "owner_carries": 2},
    ),
    (
        "somebody's load left out",
        in_trip_of(EDITED, BACK, lambda t: replace(t, loads=t.loads[:1] + t.loads[2:])),
        {
            "units_ride_with_people": 1,
            "day_kit_carried": 2,
            "party_kit_carried": 1,
            "nightly_items_held": 3,
            "units_conserved": 3,
        },
    ),
    (
        "the carry's way back left out",
        replace(EDITED, trips=EDITED.trips[:BACK] + EDITED.trips[MOVE:]),
        {
            "units_ride_with_people": 3,
            "day_kit_carried": 6,
            "party_kit_carried": 1,
            "nightly_items_held": 7,
            "units_conserved": 7,
        },
    ),
    (
        "a trip on a day that is none",
        replace(EDITED, trips=(*EDITED.trips, TripLoads(9, 1, "c1", "c2", ()))),
        {"units_ride_with_people": 1},
    ),
    (
        "a lighter tent than there is",
        in_load(
            EDITED,
            (MOVE, "m1"),
            lambda x: replace(
                x,
                pack=tuple(replace(s, mass_g=4_000) if s.unit_id == "tent" else s for s in x.pack),
            ),
        ),
        {"units_conserved": 2_000},
    ),
    (
        "no water",
        in_load(EDITED, (MOVE, "m3"), lambda x: replace(x, water_g=0)),
        {"units_conserved": 1_000},
    ),
    (
        "eight bags too many on the sled, out and back",
        put(put(EDITED, _sled(UP), "g1/low", 8), _sled(HOME), "g1/low", 8),
        {
            "sled_cap_held": 9_900,
            "sled_limit_held": 9_900,
            "sled_volume_held": 30_400 + 14_400,
            "total_cap_held": 3_500,
        },
    ),
    (
        "seven bags too many in a pack, out and back",
        put(put(EDITED, _pack(UP, "m2"), "g1/low", 7), _pack(HOME, "m2"), "g1/low", 7),
        {"pack_cap_held": 11_000 + 8_592, "pack_volume_held": 6_700 + 2_100},
    ),
    (
        "stock that does not add up",
        replace(
            PLAN,
            stock=(
                *PLAN.stock,
                NightStock(3, "c1", (Stowed("g1/low", 2, 3_000, 9_000),)),
            ),
        ),
        {"units_conserved": 2},
    ),
)


@pytest.mark.parametrize(
    ("plan", "expected"), [pytest.param(p, e, id=name) for name, p, e in SABOTAGE]
)
def test_a_slip_is_caught_by_the_rules_it_breaks_and_no_others(plan, expected):
    """Each way to spoil a valid plan is told by its rules with the amounts worked out by hand."""
    told: Counter[str] = Counter()
    for rule_id, amount in found(WORLD, plan):
        told[rule_id] += amount
    assert told == Counter(expected)


def test_the_plan_that_is_spoiled_is_right_to_begin_with():
    """Nothing is found in the plan as it was written, with its stock and without."""
    assert found(WORLD, PLAN) == ()
    assert found(WORLD, EDITED) == ()


@pytest.mark.parametrize(
    "entry",
    [
        pytest.param(e, id=f"{e.stowed.unit_id} of {e.row[1]} on trip {e.row[0]}")
        for e in entries(PLAN)
    ],
)
def test_any_one_unit_left_out_of_any_load_is_caught_and_told_briefly(entry):
    """Wherever one unit is forgotten, one to four findings tell it and name no other unit."""
    plan = put(EDITED, entry.row, entry.stowed.unit_id, -1)
    findings = check(WORLD, plan).findings
    assert 1 <= len(findings) <= 4
    told = {dict(finding.where).get("unit") for finding in findings}
    assert told <= {entry.stowed.unit_id, None}


@pytest.mark.parametrize("seed", range(40))
def test_a_garbled_plan_is_judged_and_never_raises(seed):
    """Whatever is garbled, the check ends with findings and every goal."""
    plan = PLAN
    chance = Random(seed)
    for _ in range(chance.randint(1, 12)):
        plan = garbled(plan, chance)
    report = check(WORLD, plan)
    assert report.findings
    assert [goal_id for goal_id, _ in report.goals] == [
        goal.goal_id for goal in goals_asked(with_former=False)
    ]


def test_findings_come_in_the_same_order_every_time():
    """Two checks of one garbled plan give the same findings."""
    chance = Random(7)
    plan = PLAN
    for _ in range(12):
        plan = garbled(plan, chance)
    assert check(WORLD, plan) == check(WORLD, plan)


def test_every_rule_is_broken_by_some_slip():
    """Every rule of the ledger has at least one slip that only it, or it among few, tells."""
    caught = {rule_id for _, _, expected in SABOTAGE for rule_id in expected}
    assert caught == {rule.rule_id for rule in LEDGER}
