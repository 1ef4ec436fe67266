"""A third unit of a kind that rides along only so that two others may share a pack."""

from __future__ import annotations

from solver.outcome import Limits, Solved
from solver.pipeline import plan
from solver.problem import Item, Need, NeedKind, NightSet
from tests.pipeline.exhaustive import least_peak
from tests.pipeline.test_exhaustive_search import NIGHTLY, things, world


def test_a_unit_may_make_a_detour_to_keep_others_company() -> None:
    """Two shelters of 500 g go to c and back, and the weak one's pack takes 100 g.

    Alone on the leg to c they would have to be in two packs. With the third, of 100 g and
    needed at b only, in the weak one's pack, both may be in the strong one's: 1000 g, and on
    the first leg two bags of 1 g, under a cap of 1010 g; the weak one's 100 g fill the cap.
    """
    shelters = things(500, 500, need=Need(NeedKind.EVERY_TRIP), apart_kind="shelter")
    third = Item("third", 100, 0, NIGHTLY, apart_kind="shelter")
    problem = world(
        "ab bcb ba",
        caps_g=(1010, 100),
        gear=(*shelters, third),
        night_sets=(NightSet("set", "g", 1, 0, 0, 0, 0),),
    )
    assert least_peak(problem) == 10_000
    solved = plan(problem, Limits(wall_seconds=30.0, workers=1, seed=1))
    assert isinstance(solved, Solved)
    assert (solved.goals[0].value, solved.goals[0].proven) == (10_000, True)
