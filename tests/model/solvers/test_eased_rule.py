"""Rules on sharing out that must be broken, and by how much."""

from __future__ import annotations

from dataclasses import replace

from solver.model.formulation.build_frame import build_frame
from solver.model.run import Run
from solver.model.solvers.eased_rule import least_easing
from solver.problem import Container, CookGroup, Pin, Problem
from tests.rules.worlds import person, world

RUN = Run(5.0, steady=True)


def _fuelled(count: int) -> Problem:
    cans = (Container("can", "g1", content_ml=100, tare_g=100, volume_ml=100, count=4),)
    return replace(
        world("strip-c1 c1-strip", people=(person("m1"), person("m2"))),
        cook_groups=(CookGroup("g1", (("c1", "meal"),), cans),),
        pins=(Pin("g1/can", 1, 1, "m2", count=count),),
    )


def test_half_of_the_containers_may_be_in_one_pack() -> None:
    """Of four cans two may be pinned to one pack, three are one too many, four are two."""
    assert least_easing(build_frame(_fuelled(2)), RUN) == {}
    assert least_easing(build_frame(_fuelled(3)), RUN) == {"fuel_spread": 1}
    assert least_easing(build_frame(_fuelled(4)), RUN) == {"fuel_spread": 2}
