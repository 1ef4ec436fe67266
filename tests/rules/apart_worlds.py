"""Cases that all rules share which keep things of one purpose apart on a trip."""

from __future__ import annotations

from dataclasses import replace

from solver.problem import Item, Purpose, Sled
from tests.rules.worlds import EVERY_NIGHT, Case, glacier, item, person, plan_of, world

TWO = (person("m1", sled_g=20_000), person("m2"))
SLED = Sled("s1", "m1", tare_g=1_000, mass_limit_g=90_000, volume_ml=90_000)


def apart_cases(rule_id: str, purpose: Purpose) -> tuple[Case, ...]:
    """Days out and back with one, two and three units of a purpose in packs and on a sled."""

    def of(count: int, unit: str = "thing") -> Item:
        return item(unit, count=count, purpose=purpose, shelter_places=2)

    def case(name: str, gear: tuple[Item, ...], loads: dict[str, str], over: int = 0) -> Case:
        problem = world(people=TWO, gear=gear, sleds=(SLED,), sled_leg_factors=(100, 100))
        problem = glacier(problem, rule_id)
        finds = ((rule_id, over),) * (2 if over else 0)
        return Case(name, problem, plan_of(problem, loads, loads), finds)

    alone = glacier(world(gear=(of(2),)), rule_id)
    other = replace(alone, gear=(item("thing", EVERY_NIGHT, count=2),))
    unlike = (of(1), of(1, "other"))
    # The second can carry one of four, so the first must carry three.
    weak = (person("m1"), person("m2", pack_g=1_900))
    four = glacier(world(people=weak, gear=(of(4),)), rule_id)
    return (
        case("one alone", (of(1),), {"m1": "thing"}),
        case("two in two packs", (of(2),), {"m1": "thing", "m2": "thing"}),
        case("two in one pack", (of(2),), {"m1": "thing*2"}, 1),
        case("pack and sled of one person", (of(2),), {"m1": "thing | thing"}),
        case("two on one sled", (of(2),), {"m1": "| thing*2"}, 1),
        case("two of three in one pack", (of(3),), {"m1": "thing*2", "m2": "thing"}),
        case("three in one pack", (of(3),), {"m2": "thing*3"}, 1),
        case("unlike units of the purpose", unlike, {"m1": "thing other"}, 1),
        Case("three of four", four, plan_of(four, *({"m1": "thing*3", "m2": "thing"},) * 2)),
        Case("of no purpose", other, plan_of(other, *({"m1": "thing*2"},) * 2)),
        Case(
            "nobody to share with",
            alone,
            plan_of(alone, *({"m1": "thing*2"},) * 2),
            ((rule_id, 1), (rule_id, 1)),
            solvable=False,
        ),
    )
