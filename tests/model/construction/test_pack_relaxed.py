"""The relaxed plan packed trip by trip."""

from __future__ import annotations

from dataclasses import replace

from solver.model.construction.pack_relaxed import pack_relaxed
from solver.model.formulation.build_frame import build_frame
from solver.model.solvers.relaxation import build_relaxation
from solver.model.solvers.relaxed_plans import RelaxedPlans, relaxed_plans
from solver.outcome import Limits
from solver.progress import Watch
from tests.pipeline.one_leg import one_leg

LIMITS = Limits(wall_seconds=20.0, workers=1, seed=1)
FRAME = build_frame(one_leg([6_000] * 3, people=2, cap_g=20_000))


def _relaxed() -> RelaxedPlans:
    return relaxed_plans(build_relaxation(FRAME), LIMITS, Watch(20.0), start=None, peak=None)


def test_rides_are_kept_and_whole_units_raise_the_bound() -> None:
    """Three pieces in two packs need 60 %, not 45 %, and no piece has a choice of trip."""
    relaxed = _relaxed()
    packed = pack_relaxed(FRAME, relaxed, LIMITS, Watch(20.0), has_draft=False)
    assert relaxed.plan is not None
    assert packed.draft is not None
    assert packed.draft.rides() == relaxed.plan.rides
    assert (relaxed.bound, packed.bound) == (4_500, 6_000)


def test_without_a_relaxed_plan_or_time_there_is_nothing_to_pack() -> None:
    """The bound stays what it was."""
    relaxed = _relaxed()
    none = pack_relaxed(FRAME, replace(relaxed, plan=None), LIMITS, Watch(20.0), has_draft=True)
    assert (none.draft, none.bound) == (None, relaxed.bound)
    stopped = Watch(20.0, wish_to_stop=lambda: True)
    assert pack_relaxed(FRAME, relaxed, LIMITS, stopped, has_draft=True).draft is None
