"""Guides carry rescue kit: the checker with rope and kit at the ends and in between."""

from dataclasses import replace

import pytest

from solver.checker import check
from solver.problem import Item, Need, Person, Purpose
from tests.rules.worlds import (
    EVERY_NIGHT,
    EVERY_TRIP,
    Case,
    asked_alone,
    item,
    on_glacier,
    person,
    plan_of,
    remarked,
    world,
)

RULE = "guides_carry_rescue_kit"


def _kit(
    purpose: Purpose, need: Need = EVERY_TRIP, *, count: int = 1, owner_id: str | None = None
) -> Item:
    return replace(item("kit", need, count=count, owner_id=owner_id), purpose=purpose)


def _people(guide: str = "") -> tuple[Person, ...]:
    return tuple(replace(person(who), is_guide=who == guide) for who in ("m1", "m2", "m3"))


def _case(name: str, kit: Item, loads: dict[str, str], *units: int, guide: str = "") -> Case:
    """Three on a rope with a kit, out and back on one day."""
    problem = asked_alone(on_glacier(world(people=_people(guide), gear=(kit,))), RULE)
    finds = tuple((RULE, amount) for amount in units)
    return Case(name, problem, plan_of(problem, *(loads,) * 2), finds)


CASES = (
    _case("rope, first", _kit(Purpose.ROPE), {"m1": "kit"}),
    _case("rope, last", _kit(Purpose.ROPE), {"m3": "kit"}),
    _case("rope, between", _kit(Purpose.ROPE), {"m2": "kit"}, 1, 1),
    _case("rescue kit, both ends", _kit(Purpose.RESCUE_KIT, count=2), {"m1": "kit", "m3": "kit"}),
    _case("rescue kit, between", _kit(Purpose.RESCUE_KIT, count=2), {"m2": "kit*2"}, 2, 2),
    _case("medical kit, between", _kit(Purpose.MEDICAL_KIT), {"m2": "kit"}, 1, 1),
    _case("with the guide", _kit(Purpose.ROPE), {"m2": "kit"}, guide="m2"),
    _case("behind the guide", _kit(Purpose.ROPE), {"m1": "kit"}, 1, 1, guide="m2"),
    _case("big medical kit", _kit(Purpose.MEDICAL_KIT, EVERY_NIGHT), {"m2": "kit"}),
    _case("own medical kit", _kit(Purpose.MEDICAL_KIT, owner_id="m2"), {"m2": "m2/kit"}),
    _case("shovel", _kit(Purpose.SHOVEL), {"m2": "kit"}),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_what_a_rescue_needs_rides_with_guides_or_at_the_ends(case):
    """Shared rope, rescue and medical kit of every trip between the ends is remarked."""
    assert remarked(case.problem, case.plan, RULE) == case.finds


def test_the_words_name_person_trip_and_units():
    """The remark names who carries what on which trip, and who should."""
    case = CASES[2]
    words = [r.finding.message for r in check(case.problem, case.plan).remarks]
    assert words[0] == (
        "m2 on day 1, strip to c1 carries kit, which guides or those at the ends of the rope should"
    )
