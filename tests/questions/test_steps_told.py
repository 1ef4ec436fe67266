"""Steps as an answer tells them: what is still open is not tried, and the gains come first."""

from dataclasses import replace

from solver.questions.steps_told import is_open, known, told_as, worth_of
from solver.questions.what_binds import all_steps
from solver.questions.worth import Verdict
from tests.questions.worlds import own_kits

STEPS = all_steps(own_kits(9_000, 5_000))


def test_a_step_that_only_a_bound_leaves_open_is_not_tried_yet():
    """A step without a verdict neither; one that was solved, or proven, keeps its verdict."""
    step = told_as(STEPS[0], Verdict.NONE_FOUND)
    assert is_open(step)
    assert known(STEPS[0], step).verdict is Verdict.NOT_TRIED
    assert known(STEPS[0], None).verdict is Verdict.NOT_TRIED
    solved = replace(step, peak=9_000)
    assert known(STEPS[0], solved) == solved
    assert not is_open(told_as(STEPS[0], Verdict.SAME_PROVEN))


def test_the_cheapest_that_helps_is_named_only_where_all_cheaper_ones_were_tried():
    """The largest gain comes first; one not tried before the cheapest leaves its name out."""
    same = [told_as(step, Verdict.SAME_PROVEN) for step in STEPS]
    helps = [replace(same[n], verdict=Verdict.LOWERS, gain=n) for n in (1, 2)]
    worth = worth_of(9_500, 9_000, STEPS, [same[0], *helps, *same[3:]], ())
    assert worth.nothing_short_of == helps[0]
    assert list(worth.steps[:2]) == helps[::-1]
    open_first = [told_as(STEPS[0], Verdict.NOT_TRIED), *helps, *same[3:]]
    worth = worth_of(9_500, 9_000, STEPS, open_first, ())
    assert (worth.nothing_short_of, worth.nothing_lowers, worth.not_tried) == (None, False, 1)
    assert worth_of(9_500, 9_000, STEPS, same, ()).nothing_lowers
