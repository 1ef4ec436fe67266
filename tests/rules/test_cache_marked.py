"""Cache marked: a pole for each cache, and poles for all that are made at the same time."""

from dataclasses import replace
from functools import partial

import pytest

from solver.problem import CacheSite, PlaceKind, Problem, Purpose, Reserve, ReserveKind
from tests.rules.cache_worlds import cache_world, with_cache
from tests.rules.calendar_worlds import hard_case, numbered, told, with_kind
from tests.rules.worlds import RequestCase, item, request_found, world

RULE = "cache_marked"
_case = partial(hard_case, RULE)


def _poles(problem: Problem, count: int) -> Problem:
    pole = replace(item("pole", count=count, mass_g=100), purpose=Purpose.MARKER_POLE)
    return replace(problem, gear=(pole,))


def _two_at_once() -> Problem:
    """Two caches made on one day and passed on the next."""
    days = "strip-c1-c2-c1-strip strip-c1-c2-c3 c3-c2-c1-strip"
    first = with_kind(world(days), "c1", PlaceKind.CACHE_SITE)
    return with_kind(first, "c2", PlaceKind.CACHE_SITE)


LEFT_CAMP = world(
    "strip-c1 c1-c2 c2-c1-strip", reserves=(Reserve("c1", "g1", ReserveKind.DESCENT, 1, "meal"),)
)

CASES = (
    _case("told: one", cache_world(CacheSite(poles=1))),
    _case("told: none", cache_world(CacheSite(poles=0)), 1),
    _case("not told, none listed", cache_world(None)),
    _case("listed: one for one", _poles(cache_world(None), 1)),
    _case("listed: one where two are told", _poles(cache_world(CacheSite(poles=2)), 1), 1),
    _case("listed: two where two are told", _poles(cache_world(CacheSite(poles=2)), 2)),
    _case("listed: one for two at once", _poles(_two_at_once(), 1), 1),
    _case("listed: two for two at once", _poles(_two_at_once(), 2)),
    _case(
        "two poles each are asked for", numbered(_poles(_two_at_once(), 2), poles_per_cache=2), 2
    ),
    _case("a camp left with a descent reserve", _poles(LEFT_CAMP, 1)),
    _case(
        "a camp left with a descent reserve wants its poles",
        _poles(with_cache(LEFT_CAMP, CacheSite(poles=2)), 1),
        1,
    ),
    _case(
        "a camp left without one wants none",
        _poles(with_cache(replace(LEFT_CAMP, reserves=()), CacheSite(poles=2)), 1),
    ),
    _case(
        "a cache that was fetched wants none",
        _poles(
            with_cache(cache_world(None, "strip-c1-c2 c2-c1-c2 c2-c1-strip"), CacheSite(poles=1)),
            1,
        ),
    ),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_caches_have_their_poles(case: RequestCase) -> None:
    """Each cache is told no fewer poles than it needs, and the poles listed mark all at once."""
    assert request_found(case.problem, RULE) == case.finds


def test_the_night_and_the_caches_are_named() -> None:
    """The words name the worst night, its caches and how many poles to add."""
    (finding,) = told(CASES[6].problem, RULE)
    assert finding.message == (
        "night of day 1: 2 poles are needed for caches at c1, c2, 1 are listed"
    )
    assert "list 1 more marker poles or wands" in finding.instead
