"""Storm reserve planned: nights of storm reserve at each camp, more at the highest."""

from functools import partial

import pytest

from solver.problem import CookGroup, NightSet, Problem, Reserve, ReserveKind
from tests.rules.calendar_worlds import hard_case, numbered, told
from tests.rules.worlds import RequestCase, person, request_found, world

RULE = "storm_reserve_planned"
_case = partial(hard_case, RULE)
DAYS = "strip strip-c1 c1-c2 c2-c1-strip"


def _world(low: int, high: int, kind: ReserveKind = ReserveKind.STORM) -> Problem:
    nights = (("c1", low), ("c2", high))
    planned = tuple(Reserve(place, "g1", kind, n, "meal") for place, n in nights if n)
    return world(DAYS, reserves=planned)


def _two_groups() -> Problem:
    groups = tuple(
        CookGroup(g, tuple((p, "meal") for p in ("strip", "c1", "c2"))) for g in ("g1", "g2")
    )
    return world(
        "strip-c1|strip-c1 c1-c2|c1 c2-c1-strip|c1-strip",
        people=(person("m1"), person("m2", rope_team_id="r2", cook_group_id="g2")),
        groups=groups,
        night_sets=tuple(NightSet("meal", g, 10, 0, 0, 0, 0) for g in ("g1", "g2")),
        reserves=(
            Reserve("c1", "g1", ReserveKind.STORM, 1, "meal"),
            Reserve("c2", "g1", ReserveKind.STORM, 2, "meal"),
            Reserve("c1", "g2", ReserveKind.STORM, 1, "meal"),
        ),
    )


CASES = (
    _case("at", _world(1, 2)),
    _case("none at the lower camp", _world(0, 2), 1),
    _case("a night too few at the highest", _world(1, 1), 1),
    _case("none at all", _world(0, 0), 1, 2),
    _case("a descent reserve is none for storms", _world(1, 2, ReserveKind.DESCENT), 1, 2),
    _case("each group has its own highest camp", _two_groups(), 1),
    _case("another number for high camps", numbered(_world(1, 2), storm_nights_high=3), 1),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_each_camp_has_its_storm_reserve(case: RequestCase) -> None:
    """Each camp of a cook group but the start holds its nights for storms, counted in nights."""
    assert request_found(case.problem, RULE) == case.finds


def test_camp_group_and_what_to_add_are_named() -> None:
    """The words name group and camp, and the reserve that would do."""
    (finding,) = told(CASES[5].problem, RULE)
    assert "cook group g2 at c1: a storm reserve of 1 night is planned, 2 nights" in finding.message
    assert finding.instead == ("add a storm reserve of 1 night for g2 at c1",)


def test_reserves_of_one_camp_add_up() -> None:
    """Two storm reserves of a night each are two nights."""
    twice = (Reserve("c1", "g1", ReserveKind.STORM, 1, "meal"),) * 2
    assert not told(hard_case(RULE, "", world("strip-c1 c1-strip", reserves=twice)).problem, RULE)
