"""Vital kit on owner: things that keep somebody alive on that person, and with a rope-mate."""

from dataclasses import replace

import pytest

from solver.plan import Plan
from solver.problem import Need, Problem, Purpose
from tests.rules.worlds import EVERY_NIGHT, Case, found, item, person, plan_of, world

RULE = "vital_kit_on_owner"
FOOD = "g1/meal*2"
WAIVED = (("medication_on_person", "own choice"), ("injector_doubled", "own choice"))
"""Rules on the request that ask for more of the same things, and would be first to tell."""


def _world(
    purpose: Purpose | None,
    c1_c: float | None = None,
    *,
    strip_c: float | None = None,
    below_c: float | None = None,
    need: Need = EVERY_NIGHT,
    weak_g: int | None = None,
    days: str = "strip-c1 c1-strip",
    **numbers: float,
) -> Problem:
    """A kilogram of m1, whose kit goes to the rope team, out to a night at c1 and home."""
    spared = replace(person("m1"), kit_to_rope_team=True, load_limit_g=weak_g)
    thing = replace(item("it", need, owner_id="m1", purpose=purpose), needed_below_c=below_c)
    problem = world(days, people=(spared, person("m2")), gear=(thing,))
    cold = {"strip": strip_c, "c1": c1_c}
    places = tuple(
        replace(p, night_temperature_c=cold.get(p.place_id)) for p in problem.route.places
    )
    return replace(
        problem,
        route=replace(problem.route, places=places),
        rules=replace(problem.rules, numbers=tuple(numbers.items()), waived=WAIVED),
    )


def _plan(problem: Problem, up: str, down: str) -> Plan:
    """The thing with `up` on the way out, with `down` on the way home; m2 has the food."""
    out = {"m1": "", "m2": FOOD}
    out[up] += " m1/it"
    return plan_of(problem, out, {down: "m1/it"})


def _case(name: str, problem: Problem, up: str, down: str, *over: int, solvable=True) -> Case:
    return Case(name, problem, _plan(problem, up, down), tuple((RULE, n) for n in over), solvable)


HEADLAMP = _world(Purpose.HEADLAMP)
JACKET = Purpose.WARM_JACKET
BOOTS = Purpose.COLD_CLOTHING
WARM = {"c1_c": 2.0, "strip_c": 8.0}

# Over c1 to c2 and back: only the second leg of the first day ends in a night.
VIA = replace(
    _world(JACKET, 2.0, strip_c=8.0, days="strip-c1-c2 c2-c1-strip"),
    rules=replace(HEADLAMP.rules, numbers=(("warm_layers_below_c", -40.0),)),
)


def _via(name: str, carriers: tuple[str, str], *over: int) -> Case:
    first, second = ({"m1": "", "m2": FOOD} for _ in range(2))
    first[carriers[0]] += " m1/it"
    second[carriers[1]] += " m1/it"
    plan = plan_of(VIA, first, second, {"m2": "m1/it"}, {"m2": "m1/it"})
    return Case(name, VIA, plan, tuple((RULE, n) for n in over))


CASES = (
    *(
        _case(f"{purpose.value} with its owner", _world(purpose), "m1", "m1")
        for purpose in (Purpose.RUCKSACK, Purpose.MEDICATION)
    ),
    *(
        _case(f"{purpose.value} with a rope-mate", _world(purpose, **WARM), "m2", "m1", 1)
        for purpose in (
            Purpose.RUCKSACK,
            Purpose.HEADLAMP,
            Purpose.GLOVES,
            Purpose.MITTS,
            Purpose.SPARE_MITTS,
            Purpose.EYE_PROTECTION,
            Purpose.FLASK,
            Purpose.MEDICATION,
            Purpose.INJECTOR,
        )
    ),
    *(
        _case(f"{purpose} may go to the rope team", _world(purpose), "m2", "m2")
        for purpose in (None, Purpose.SLEEPING_BAG, Purpose.SLEEPING_PAD, Purpose.DRY_LAYER)
    ),
    _case("both ways", HEADLAMP, "m2", "m2", 1, 1),
    _case(
        "above the owner's limit",
        _world(Purpose.HEADLAMP, weak_g=999),
        "m2",
        "m2",
        1,
        1,
        solvable=False,
    ),
    _case("at the owner's limit", _world(Purpose.HEADLAMP, weak_g=1000), "m1", "m1"),
    _case("a jacket where nobody told the cold", _world(JACKET), "m1", "m2", 1),
    _case("a jacket below freezing", _world(JACKET, -0.1, strip_c=8.0), "m1", "m2", 1),
    _case("a jacket at freezing, home", _world(JACKET, 0.0, strip_c=8.0), "m1", "m2"),
    _case("a jacket for the night", _world(JACKET, **WARM), "m2", "m2", 1),
    _case(
        "a shell by another number",
        _world(Purpose.SHELL_CLOTHING, -5.0, warm_layers_below_c=-5),
        "m1",
        "m2",
    ),
    _case(
        "a shell just below it",
        _world(Purpose.SHELL_CLOTHING, -5.1, warm_layers_below_c=-5),
        "m1",
        "m2",
        1,
    ),
    _case("the colder end counts", _world(JACKET, 5.0, strip_c=-1.0), "m1", "m2", 1),
    _case("overboots not asked for yet", _world(BOOTS, -22.0, below_c=-22), "m2", "m2"),
    _case("overboots where it is colder", _world(BOOTS, -22.1, below_c=-22), "m2", "m2", 1, 1),
    _case("overboots, cold not told", _world(BOOTS, below_c=-22), "m1", "m2", 1),
    _case("cold clothing for no number", _world(BOOTS, -1.0), "m1", "m2", 1),
    _case(
        "a jacket above the owner's limit",
        _world(JACKET, -9.0, weak_g=999),
        "m2",
        "m2",
        1,
        1,
        solvable=False,
    ),
    _via("a jacket on a leg that ends in no night", ("m2", "m1")),
    _via("a jacket on the leg to the night", ("m1", "m2"), 1),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_what_keeps_a_person_alive_stays_on_that_person(case):
    """Whoever takes the rest, headlamp, mitts, flask and the layers for the cold stay."""
    assert found(case.problem, case.plan) == case.finds


def test_the_rule_cannot_be_waived_with_the_one_on_owners():
    """Where `owner_carries` is a caution, a headlamp with somebody else is still forbidden."""
    reasons = (*WAIVED, ("owner_carries", "we share"))
    problem = replace(HEADLAMP, rules=replace(HEADLAMP.rules, waived=reasons))
    people = tuple(replace(p, kit_to_rope_team=False) for p in problem.roster)
    problem = replace(problem, roster=people)
    assert found(problem, _plan(problem, "m2", "m1")) == ((RULE, 1),)
