"""Human waste containers enough: containers hold what stays gather."""

from dataclasses import replace
from functools import partial

import pytest

from solver.problem import CookGroup, Need, NeedKind, Problem, Purpose, Waste
from tests.rules.food_worlds import fed, hard, told
from tests.rules.worlds import EVERY_NIGHT, MEAL, RequestCase, item, person, request_found, world

RULE = "human_waste_containers_enough"
_case = partial(hard, RULE)
_TWO_NIGHTS = "strip-c1 c1 c1-strip"


def _carrying(
    *capacities_ml: int | None, days: str = _TWO_NIGHTS, may_be_left: bool = False
) -> Problem:
    gear = tuple(
        replace(
            item(f"tub-{n}", EVERY_NIGHT, purpose=Purpose.HUMAN_WASTE_CONTAINER),
            capacity_ml=capacity_ml,
        )
        for n, capacity_ml in enumerate(capacities_ml, start=1)
    )
    return replace(fed(days), gear=gear, waste=Waste(may_be_left=may_be_left))


def _two_camps(capacity_ml: int) -> Problem:
    tub = item(
        "tub", purpose=Purpose.HUMAN_WASTE_CONTAINER, need=Need(NeedKind.AT_PLACE, up_to="c1")
    )
    return world(
        "strip-c1|strip c1-strip|strip",
        people=(person(), person("m2", rope_team_id="r2", cook_group_id="g2")),
        groups=tuple(
            CookGroup(g, tuple((p, "meal") for p in ("strip", "c1"))) for g in ("g1", "g2")
        ),
        night_sets=(MEAL, replace(MEAL, cook_group_id="g2")),
        gear=(replace(tub, capacity_ml=capacity_ml),),
    )


CASES = (
    _case("at", _carrying(1400)),
    _case("a millilitre less", _carrying(1399), 1),
    _case("two together", _carrying(700, 700)),
    _case("none listed", _carrying()),
    _case("none told", _carrying(None)),
    _case("may be left", _carrying(100, may_be_left=True)),
    _case("packed into sacks between stays", _carrying(700, days="strip-c1 c1-c2 c2-c1-strip")),
    _case("three nights running", _carrying(1400, days="strip-c1 c1 c1 c1-strip"), 700),
    _case("two camps at a time", _two_camps(1399), 1),
    _case("two camps at a time, at", _two_camps(1400)),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_containers_hold_what_stays_gather(case: RequestCase) -> None:
    """Millilitres that the containers lack on the worst night are told."""
    assert request_found(case.problem, RULE) == case.finds


def test_night_and_amounts_are_named() -> None:
    """The words say the night, what has come together and what there is room for, in litres.

    1.4 L are needed and there is room for 1.399 L: no words say that 1.4 L do not hold 1.4 L.
    """
    (finding,) = told(CASES[1].problem, RULE)
    assert "by the night of day 2 stays have gathered 2 person-nights" in finding.message
    assert "waste, 1.4 L at 0.7 L each; the waste containers hold 1.3 L" in finding.message
    assert "take containers for 0.1 L more" in finding.instead
    assert (finding.amount, finding.unit) == (1, "mL")
