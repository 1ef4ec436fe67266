"""Cache poles at hand: marker poles stand where a plan leaves things alone."""

from collections.abc import Mapping
from dataclasses import replace
from functools import partial

import pytest

from solver.checker import check
from solver.plan import Plan
from solver.problem import CacheSite, Need, NeedKind, Problem, Purpose
from tests.rules.cache_worlds import cache_world, plan_case
from tests.rules.worlds import Case, item, plan_of, remarked

RULE = "cache_poles_at_hand"
_case = partial(plan_case, RULE)

AT_CACHE = Need(NeedKind.AT_PLACE, up_to="c1", may_go_ahead=True)


def _world(site: CacheSite | None = None) -> Problem:
    """A cache for one night on the way, and two poles that belong there."""
    pole = replace(item("pole", AT_CACHE, count=2, mass_g=100), purpose=Purpose.MARKER_POLE)
    return replace(cache_world(site, "strip-c1-strip strip-c1-c2 c2-c1-strip"), gear=(pole,))


def _plan(problem: Problem, first: str, second: str = "") -> Plan:
    """Some units are left on the first day and others brought on the second."""
    trips: list[Mapping[str, str]] = [{"m1": first}, {}, {"m1": second}, {}, {}, {}]
    return plan_of(problem, *trips, stock={(0, "strip"): "g1/meal*3 pole*2"})


ONE, TWO = _world(), _world(CacheSite(poles=2))
WITHOUT = replace(ONE, gear=())
WAND = replace(ONE, gear=(replace(ONE.gear[0], purpose=Purpose.WAND),))

CASES = (
    _case("a pole with the food", ONE, _plan(ONE, "g1/meal pole*2")),
    _case("no pole until the next day", ONE, _plan(ONE, "g1/meal", "pole*2"), 1),
    _case("two told and two there", TWO, _plan(TWO, "g1/meal pole*2")),
    _case("two told and one there", TWO, _plan(TWO, "g1/meal pole", "pole"), 1),
    _case("two told and none there", TWO, _plan(TWO, "g1/meal", "pole*2"), 2),
    _case("a wand with the food", WAND, _plan(WAND, "g1/meal pole*2")),
    _case("a wand that comes late", WAND, _plan(WAND, "g1/meal", "pole*2"), 1),
    _case("none listed", WITHOUT, _plan(WITHOUT, "g1/meal")),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_poles_stand_where_things_are_left(case: Case) -> None:
    """A caution counts the poles that a cache lacks on the night on which it lacks most."""
    assert remarked(case.problem, case.plan, RULE) == case.finds


def test_the_place_and_the_night_are_named() -> None:
    """The words name the place, the first such night and how many poles are elsewhere."""
    report = check(CASES[4].problem, CASES[4].plan)
    (finding,) = [r.finding for r in report.remarks if r.finding.rule_id == RULE]
    assert finding.message.startswith("c1, night of day 1: things stand alone there, and 2 of")
    assert "2 of the poles that mark them are elsewhere" in finding.message
    report = check(CASES[3].problem, CASES[3].plan)
    (finding,) = [r.finding for r in report.remarks if r.finding.rule_id == RULE]
    assert "1 of the poles that mark them is elsewhere" in finding.message
