"""What a plan claims of masses, water and stock."""

from dataclasses import replace

from solver.checker.ledger.facts import read_facts
from solver.checker.ledger.replay import replay
from solver.checker.queries.claims import load_claims, stock_claims
from solver.plan import NightStock, Stowed
from solver.problem import Change, History
from tests.rules.worlds import item, person, plan_of, world

PROBLEM = world(people=(person("m1", water_g=500),), gear=(item("rope"),))
PLAN = plan_of(PROBLEM, {"m1": "rope"}, {"m1": "rope"})


def _load_claims(**changes):
    up, down = PLAN.trips
    (load,) = up.loads
    plan = replace(PLAN, trips=(replace(up, loads=(replace(load, **changes),)), down))
    found = load_claims(replay(read_facts(PROBLEM), plan))
    return [(finding.amount, finding.unit) for finding in found]


def _stock_claims(*entries):
    found = stock_claims(replay(read_facts(PROBLEM), replace(PLAN, stock=entries)))
    return [(finding.amount, finding.unit) for finding in found]


def test_true_claims_are_not_told():
    """A plan whose figures are the replay's has no findings."""
    assert _load_claims() == []


def test_claims_of_water_and_mass_are_compared():
    """100 g of water too few, and a rope of 900 g and 1.1 L, differ by 100 each."""
    assert _load_claims(water_g=400) == [(100, "g")]
    assert _load_claims(pack=(Stowed("rope", 1, 900, 1_100),)) == [(100, "g"), (100, "mL")]


def test_stock_is_compared_where_the_plan_gives_any():
    """A plan without stock claims nothing; one that forgets the end place leaves a unit out."""
    rope = (Stowed("rope", 1, 1_000, 1_000),)
    assert _stock_claims() == []
    assert _stock_claims(NightStock(0, "strip", rope), NightStock(1, "strip", rope)) == []
    assert _stock_claims(NightStock(0, "strip", rope)) == [(1, "units")]


def test_stock_of_no_such_day_is_told():
    """Stock of day 9 is about a day that the expedition does not have."""
    rope = (Stowed("rope", 1, 1_000, 1_000),)
    given = [NightStock(day, "strip", rope) for day in (0, 1, 9)]
    assert _stock_claims(*given) == [(1, "units")]


def test_a_claim_of_what_is_over_hides_none_of_what_is_to_come():
    """Of two ropes one is lost at c1 on day 1; the plan has both on both days: the second counts.

    Water that differs on both days is told once, for the day to come.
    """
    lost = History(1, after_night=True, changes=(Change("c1", "rope", -1),))
    days = world("strip-c1 c1-strip", people=PROBLEM.roster, gear=PROBLEM.gear)
    problem = replace(days, history=lost)
    taken = {(0, "strip"): "rope*2 g1/meal", (1, "c1"): "rope*2", (2, "strip"): "rope*2"}
    plan = plan_of(days, {"m1": "rope g1/meal"}, {}, stock=taken)
    thirsty = [
        replace(trip, loads=tuple(replace(one, water_g=400) for one in trip.loads))
        for trip in plan.trips
    ]
    replayed = replay(read_facts(problem), replace(plan, trips=tuple(thirsty)))
    told = [
        (finding.amount, finding.unit, dict(finding.where)["day"])
        for claims in (load_claims, stock_claims)
        for finding in claims(replayed)
    ]
    assert told == [(100, "g", 2), (1, "units", 2)]
