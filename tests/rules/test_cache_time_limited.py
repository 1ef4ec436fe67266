"""Cache time limited: the checker with a cache fetched on the fourteenth day, and a day later."""

from dataclasses import replace

import pytest

from solver.checker import check
from solver.problem import Need, NeedKind, Purpose, Waste
from tests.rules.worlds import MEAL, Case, found, glacier, item, person, plan_of, world

RULE = "cache_time_limited"
AHEAD = Need(NeedKind.EVERY_NIGHT, from_place="c1", may_go_ahead=True)


def _case(name, days, *over, up="g1/meal", later="", down="", solvable=True, **parts):
    """Something goes to c1 on day 1, and so many days later people come to sleep there."""
    numbers = parts.pop("numbers", {})
    calendar = " ".join(["strip-c1-strip", *["strip"] * (days - 1), "strip-c1", "c1-strip"])
    problem = glacier(world(calendar, **parts), RULE, **numbers)
    plan = plan_of(problem, {"m1": up}, {}, {"m1": later}, {"m1": down})
    return Case(name, problem, plan, tuple((RULE, n) for n in over), solvable)


TENT = item("tent", AHEAD, mass_g=20)
SMALL = {"people": (person(pack_g=20),), "gear": (TENT,)}
SPLIT = {"up": "tent", "later": "g1/meal", "down": "tent"}

STANDS = Need(NeedKind.AT_PLACE, up_to="c1")


def _marks(name, purpose, *over):
    """A thing that belongs at c1 on a night of day 3, left there on day 1 and fetched at last."""
    mark = item("mark", STANDS, mass_g=20, purpose=purpose)
    problem = glacier(
        world("strip-c1 c1-strip strip strip-c1 c1-strip", gear=(mark,)), RULE, cache_days=1
    )
    plan = plan_of(problem, {"m1": "mark g1/meal"}, {}, {"m1": "g1/meal"}, {"m1": "mark"})
    return Case(name, problem, plan, tuple((RULE, n) for n in over), not over)


def _sacks():
    """Trash of a night at c1 that stays there for two days, until people sleep there again."""
    meal = replace(MEAL, packaging_g=5)
    waste = Waste(trash_sack_g=1_000)
    problem = world("strip-c1 c1-strip strip strip-c1 c1-strip", night_sets=(meal,), waste=waste)
    problem = glacier(problem, RULE, cache_days=1)
    both = ("trash/c1/1-1", "trash/c1/2-1")
    weights = {(sack, 5): (5, 25) for sack in both}
    trips = ({"m1": "g1/meal"}, {}, {"m1": "g1/meal"}, {"m1": " ".join(both)})
    return Case("trash waits", problem, plan_of(problem, *trips, weights=weights))


CASES = (
    _marks("a wand stands on", Purpose.WAND),
    _marks("a pole stands on", Purpose.MARKER_POLE),
    _sacks(),
    _marks("a stove does not", Purpose.STOVE, 1),
    _case("14 days", 14),
    _case("15 days", 15, 1),
    _case("nothing left there", 15, up="", later="g1/meal"),
    _case("two of two days", 2, numbers={"cache_days": 2}),
    _case("three of two days", 3, 1, numbers={"cache_days": 2}),
    _case("three of three days", 3, numbers={"cache_days": 3}),
    _case("needed and in time", 2, **SPLIT, **SMALL, numbers={"cache_days": 2}),
    _case("needed and too long", 3, 1, **SPLIT, **SMALL, numbers={"cache_days": 2}, solvable=False),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_nothing_waits_longer_than_the_rule_allows(case):
    """What stands where nobody comes is fetched within 14 days, the day of leaving not counted."""
    assert found(case.problem, case.plan) == case.finds


def test_what_is_never_fetched_is_left_too_long():
    """A thing at c1 that nobody comes for is told however short the trip is, and so is its end."""
    problem = glacier(world("strip-c1-strip strip strip", gear=(TENT,)), RULE)
    findings = check(problem, plan_of(problem, {"m1": "tent"}, {})).findings
    assert {f.rule_id for f in findings} == {RULE, "everything_returns"}


def test_passing_by_counts_as_a_visit():
    """A party that walks through c1 on day 9 parts the fifteen days of a cache in two."""
    calendar = ["strip-c1-strip", *["strip"] * 7, "strip-c1-strip", *["strip"] * 6]
    problem = glacier(world(" ".join([*calendar, "strip-c1", "c1-strip"])), RULE)
    plan = plan_of(problem, {"m1": "g1/meal"}, {}, {}, {}, {}, {})
    assert found(problem, plan) == ()
