"""Units conserved: loads of what is not there, of what cannot be, and figures that are untrue."""

from dataclasses import replace

import pytest

from solver.checker import check
from solver.plan import Plan
from solver.problem import Need, NeedKind, NightSet, Problem
from tests.rules.worlds import EVERY_NIGHT, EVERY_TRIP, Case, found, item, person, plan_of, world

RULE = "units_conserved"
TWO = (person("m1", water_g=500, first_lunch_g=200), person("m2"))

WORLD = world(
    "strip-c1 c1-c2 c2-c1-strip",
    people=TWO,
    gear=(
        item("tent", EVERY_NIGHT),
        item("rope"),
        item("boots", Need(NeedKind.WORN), owner_id="m1"),
    ),
    night_sets=(NightSet("meal", "g1", 700, 0, 100, 2_000, 0),),
)
LUNCH = {2: 100, 3: 100}
STOCK = {
    (0, "strip"): "tent rope g1/meal*4",
    (1, "c1"): "tent rope g1/meal*2",
    (2, "c2"): "tent rope",
    (3, "strip"): "tent rope",
}


def _plan(*changed: tuple[int, str], stock=None) -> Plan:
    """The right plan with m1's packs replaced on some trips; m2 carries the rope."""
    m1 = ["tent g1/meal*4", "tent g1/meal*2", "tent", "tent"]
    for trip, units in changed:
        m1[trip] = units
    return plan_of(
        WORLD, *({"m1": units, "m2": "rope"} for units in m1), lunches=LUNCH, stock=stock
    )


def _case(name: str, plan: Plan, *over: int) -> Case:
    return Case(name, WORLD, plan, tuple((RULE, n) for n in over))


CASES = (
    _case("right", _plan()),
    _case("right, with its stock", _plan(stock=STOCK)),
    _case("the tent twice on one trip", _plan((1, "tent*2 g1/meal*2")), 1),
    _case("the rope in two packs", _plan((2, "tent rope")), 1),
    _case("forgotten on the way and there again", _plan((0, "g1/meal*4 tent"), (2, "")), 1),
    _case("something unheard of", _plan((0, "tent g1/meal*4 piano*3")), 3),
    _case("something worn", _plan((0, "tent g1/meal*4 m1/boots")), 1),
    _case("less than nothing", _plan((0, "tent*1 g1/meal*4 rope*-2")), 2),
    _case("a sack before there is one", _plan((1, "tent g1/meal*2 trash/c1/1-1")), 1),
    _case("a milliard of them", _plan((0, "tent*1000000000 g1/meal*4")), 999_999_999),
    _case("stock says one too few", _plan(stock=STOCK | {(1, "c1"): "tent rope g1/meal"}), 1),
    _case(
        "stock of a place left out", _plan(stock={k: v for k, v in STOCK.items() if k[0] != 2}), 2
    ),
    _case("stock of no such place", _plan(stock=STOCK | {(1, "c9"): "tent*2"}), 2),
    _case("stock of no such day", _plan(stock=STOCK | {(9, "c1"): ""}), 1),
    _case(
        "stock names nothing real", _plan(stock=STOCK | {(1, "c1"): STOCK[1, "c1"] + " harp"}), 1
    ),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_units_are_neither_made_nor_lost(case):
    """A load of what is not there, a unit that cannot be and untrue stock are told by count."""
    told = [pair for pair in found(case.problem, case.plan) if pair[0] == RULE]
    others = {rule for rule, _ in found(case.problem, case.plan)} - {RULE}
    assert tuple(told) == case.finds
    assert others <= {"pack_cap_held", "pack_volume_held"}


def _untrue(row: int, **changes: int) -> Plan:
    """The right plan with untrue figures in one load of the first trip."""
    plan = _plan(stock=STOCK)
    loads = list(plan.trips[0].loads)
    units = {name: changes.pop(name) for name in ("mass_g", "volume_ml") if name in changes}
    pack = tuple(replace(stowed, **units) for stowed in loads[row].pack)
    loads[row] = replace(loads[row], pack=pack, **changes)
    return replace(plan, trips=(replace(plan.trips[0], loads=tuple(loads)), *plan.trips[1:]))


@pytest.mark.parametrize(
    ("plan", "amount", "unit"),
    [
        (_untrue(1, mass_g=900), 100, "g"),
        (_untrue(1, volume_ml=1_001), 1, "mL"),
        (_untrue(0, water_g=400), 100, "g"),
        (_untrue(0, lunch_g=0), 200, "g"),
    ],
)
def test_figures_that_are_not_true_are_told_with_their_difference(plan, amount, unit):
    """Mass, volume, water and lunch in a plan are claims that the checker works out again."""
    (finding,) = check(WORLD, plan).findings
    assert (finding.rule_id, finding.amount, finding.unit) == (RULE, amount, unit)


def test_a_claim_repeated_everywhere_is_told_once():
    """A wrong mass of the rope in every load and store is one finding that counts the entries."""
    heavy = world(WORLD_DAYS, people=TWO, gear=(item("rope", EVERY_TRIP, mass_g=1_250),))
    light = world(WORLD_DAYS, people=TWO, gear=(item("rope", EVERY_TRIP, mass_g=1_000),))
    plan = plan_of(light, {"m1": "rope"}, {"m2": "rope"})
    (finding,) = check(heavy, plan).findings
    assert finding.message == (
        "mass of rope in the load of m1 on day 1, strip to c1: the plan says 1000 g, it is 1250 g; "
        "2 entries differ"
    )


WORLD_DAYS = "strip-c1-strip"


def test_a_rule_that_is_switched_off_is_not_asked():
    """The report names the rules it asked, and one switched off has no findings."""
    rules = replace(WORLD.rules, switched_off=frozenset({RULE}))
    problem: Problem = replace(WORLD, rules=rules)
    report = check(problem, CASES[2].plan)
    assert report.findings == ()
    assert RULE not in report.rules_checked
    asked = check(WORLD, CASES[2].plan).rules_checked
    assert report.rules_checked == tuple(rule_id for rule_id in asked if rule_id != RULE)


def test_a_unit_left_behind_is_told_where_it_stands():
    """A tent left at the camp, and wanted beyond it, is told as left behind there."""
    plan = _plan((1, "g1/meal*2"), (2, "tent"))
    told = [f.message for f in check(WORLD, plan).findings if f.rule_id == RULE]
    assert told == [
        "tent on day 3, c2 to c1: 1 loaded, 0 there to load, 1 too many: left behind at c1"
    ]
