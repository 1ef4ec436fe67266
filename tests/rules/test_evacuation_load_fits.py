"""Evacuation load fits: three people's packs with exactly what they take, and two grams less."""

from dataclasses import replace
from functools import partial

import pytest

from solver.problem import Evacuation, Problem, Sled
from tests.rules.calendar_worlds import numbered, soft_case, told
from tests.rules.evacuation_worlds import DAYS, SIX, camp
from tests.rules.worlds import MEAL, RequestCase, request_found

RULE = "evacuation_load_fits"
_case = partial(soft_case, RULE)


def _world(pack_g: int, *, gross_g: int = 4_000, water_g: int = 0, **changes) -> Problem:
    """Everybody with that pack cap; three would take 100 g of kit and six night sets down.

    The one who is ill carries 8,000 g at most, so three night sets of 4,000 g for two nights and
    the kit need two packs of 8,050 g.
    """
    people = tuple(
        replace(person, caps=replace(person.caps, pack_g=pack_g), water_g=water_g) for person in SIX
    )
    return camp(people, meal=replace(MEAL, gross_g=gross_g), **changes)


M2 = (Evacuation("m2"),)


def _with_sled(
    sled_g: int,
    *,
    hauler: str = "m1",
    limit_g: int = 90_000,
    total_g: int | None = None,
    factor_down: int = 100,
    days: str = DAYS,
) -> Problem:
    """Packs of 8,000 g, 100 g too little in all, and a sled of 1,000 g."""
    problem = _world(
        8_000,
        asked=M2,
        sleds=(Sled("s1", hauler, 1_000, limit_g, 90_000),),
        factor_down=factor_down,
        days=days,
    )
    roster = tuple(
        replace(p, caps=replace(p.caps, sled_g=sled_g, total_g=total_g))
        if p.person_id == hauler
        else p
        for p in problem.roster
    )
    return replace(problem, roster=roster)


CASES = (
    _case("exactly", _world(8_050, asked=M2)),
    _case("two grams short", _world(8_049, asked=M2), 2),
    _case("nobody asked about, the worst is told", _world(8_049), 2),
    _case("a gram of water each", _world(8_050, asked=M2, water_g=1), 3),
    _case("nine kilograms on the ill", numbered(_world(8_049, asked=M2), evacuee_load_kg=9)),
    _case("seven kilograms on the ill", numbered(_world(8_050, asked=M2), evacuee_load_kg=7), 1000),
    _case("one night only", numbered(_world(8_049, asked=M2), evacuation_nights=1)),
    _case("packs of any size", _world(20_000)),
    _case("a sled of one companion, exactly", _with_sled(1_100)),
    _case("a gram less on the sled", _with_sled(1_099), 1),
    _case("the sled's own limit binds", _with_sled(1_500, limit_g=1_099), 1),
    _case("the total cap binds", _with_sled(1_500, total_g=9_099), 1),
    _case("half of it on the way down", _with_sled(2_200, factor_down=50)),
    _case("half of it, a gram less", _with_sled(2_199, factor_down=50), 1),
    _case("the sled of one who stays", _with_sled(1_100, hauler="m6"), 100),
    _case("the sled stands lower", _with_sled(1_100, days="strip-c1-c2 c2-c1-strip"), 100),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_packs_hold_what_an_evacuation_takes(case: RequestCase) -> None:
    """Kit, food for two nights and water fit in the companions' packs and 8 kg on the ill."""
    assert request_found(case.problem, RULE) == case.finds


def test_people_and_masses_are_named() -> None:
    """The words name who would go, what they would take, and by how much it is too much."""
    (finding,) = told(CASES[1].problem, RULE)
    assert finding.message == (
        "night of day 1 at c1: m2, m1 and m3 would take 24.100 kg down, they may carry 24.098 kg, "
        "0.002 kg too much, with at most 8 kg on m2"
    )
    assert len(finding.instead) == 3
