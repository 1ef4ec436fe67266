"""What goes wrong by chance, drawn so that two plans that are compared meet the same luck."""

import numpy as np

from solver.outlook.mishaps import draw_lost, draw_slow, draw_spoilt

N = 2_500


def test_more_sets_leave_those_before_them_as_they_were():
    """With more sets as many are spoilt or more, in every scenario; with none, none."""
    few, many = (draw_spoilt(1, 0, 0.1, sets, N) for sets in (10, 30))
    assert (many >= few).all()
    assert many.sum() > few.sum() > 0
    assert draw_spoilt(1, 0, 0.1, 0, N).sum() == draw_spoilt(1, 0, 0.0, 10, N).sum() == 0


def test_how_many_are_drawn_does_not_change_the_first_ones():
    """The first thousand of 2500 scenarios are those of a draw of a thousand."""
    assert (draw_spoilt(3, 0, 0.1, 10, N)[:1000] == draw_spoilt(3, 0, 0.1, 10, 1000)).all()
    slow = [draw_slow((0.3,), dates=9, scenarios=n, seed=3) for n in (N, 1000)]
    assert (slow[0][:1000] == slow[1]).all()


def test_each_leg_is_slow_with_its_own_chance():
    """A leg without a chance is never slow; the share of the other is its chance."""
    slow = draw_slow((0.0, 0.3), dates=20, scenarios=N, seed=4)
    assert slow.shape == (N, 2, 20)
    assert slow[:, 0].sum() == 0
    error = np.sqrt(0.3 * 0.7 / (N * 20))
    assert abs(slow[:, 1].mean() - 0.3) <= 3 * error


def test_a_reserve_is_lost_with_its_chance():
    """Never, always, or in its share of the scenarios; another seed gives other ones."""
    assert not draw_lost(5, 0, 0.0, N).any()
    assert draw_lost(5, 0, 1.0, N).all()
    assert abs(draw_lost(5, 0, 0.2, N).mean() - 0.2) <= 3 * np.sqrt(0.2 * 0.8 / N)
    assert (draw_lost(5, 0, 0.2, N) != draw_lost(6, 0, 0.2, N)).any()
