"""The relaxation and the model in one piece, on loads that are known."""

from __future__ import annotations

from solver.model.assignment.load_fractions import peak_of
from solver.model.formulation.frame import Frame
from solver.model.run import Run
from solver.model.solvers.one_piece import build_one_piece
from solver.model.solvers.relaxation import build_relaxation
from solver.model.solvers.relaxation_refusals import is_impossible
from solver.model.solvers.relaxed_plans import relaxed_plans
from solver.model.solvers.solve_one_piece import first_draft, is_small_enough, least_peak
from solver.outcome import Limits
from solver.progress import Watch
from tests.model.frames import box, two_with
from tests.rules.worlds import person

LIMITS = Limits(wall_seconds=20.0, workers=1, seed=1)


def _three_boxes(pack_g: int = 20_000) -> Frame:
    people = (person("m1", pack_g=pack_g), person("m2", pack_g=pack_g))
    return two_with(*(box(f"b{n}", 6_000) for n in range(3)), people=people)


def test_divisible_loads_bound_what_whole_units_need() -> None:
    """Three boxes of 6 kg in two packs of 20 kg: 45.05 % divided at will, 60 % as they are."""
    frame = _three_boxes()
    relaxed = relaxed_plans(build_relaxation(frame), LIMITS, Watch(20.0), start=None, peak=None)
    assert relaxed.bound == 4_505
    assert relaxed.plan is not None
    assert relaxed.plan.trip_fractions == (4_505, 4_500)
    whole = least_peak(frame, Run(10.0))
    assert (whole.bound, whole.proven) == (6_000, True)
    assert whole.draft is not None
    assert peak_of(frame, whole.draft) == 6_000


def test_loads_beyond_all_caps_are_impossible() -> None:
    """18 kg in two packs of 8 kg: even divided at will there is no plan."""
    frame = _three_boxes(8_000)
    assert is_impossible(build_relaxation(frame), seconds=10.0)
    relaxed = relaxed_plans(build_relaxation(frame), LIMITS, Watch(20.0), start=None, peak=None)
    assert relaxed.infeasible
    known = relaxed_plans(build_relaxation(frame), LIMITS, Watch(20.0), start=None, peak=9_000)
    assert not known.infeasible


def test_that_whole_units_have_no_plan_is_said_by_two_runs() -> None:
    """Three boxes of 6 kg in two packs of 10 kg: the totals fit, the boxes do not."""
    watch = Watch(20.0)
    answer = first_draft(_three_boxes(10_000), LIMITS, watch, at_least=9_000)
    assert (answer.draft, answer.infeasible) == (None, True)
    assert [stage for stage, _ in watch.stages] == ["confirm"]
    found = first_draft(_three_boxes(12_020), LIMITS, Watch(20.0), at_least=0)
    assert found.draft is not None


def test_the_first_plan_in_one_piece_is_enough_for_who_wishes_to_finish() -> None:
    """From that plan on the watch can answer; where boxes do not fit, there is none to hear of."""
    for pack_g, has_plan in ((12_020, True), (10_000, False)):
        watch = Watch(20.0, wish_to_finish=lambda: True)
        answer = least_peak(_three_boxes(pack_g), Run(10.0), watch=watch)
        assert (answer.draft is not None) == has_plan
        assert watch.should_stop() == has_plan


def test_the_model_in_one_piece_has_a_variable_for_each_choice() -> None:
    """Each box may ride in two packs on two trips, and its rides are settled numbers."""
    frame = _three_boxes()
    piece = build_one_piece(frame)
    assert is_small_enough(frame)
    assert piece.impossible is None
    settled = [piece.rides[ride] for ride in frame.settled]
    assert settled == [1] * 6
    boxes = [key for key in piece.carried if frame.world.cargo[key[0]].item is not None]
    assert len(boxes) == 3 * 2 * 2
