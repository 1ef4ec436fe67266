"""Trips packed exactly, by people and as identical bins."""

from __future__ import annotations

import pytest

from solver.model.run import Run
from solver.model.solvers.exact_trip import pack_exactly
from solver.model.solvers.highs_run import Effort
from solver.model.solvers.identical_carriers import pack_identical_carriers
from tests.model.frames import box, index_of, two_with
from tests.rules.worlds import person

MASSES_G = (6_000, 5_000, 4_000, 3_000, 2_000)


def _frame(second_g: int = 20_000):
    people = (person("m1"), person("m2", pack_g=second_g))
    frame = two_with(*(box(f"b{n}", g) for n, g in enumerate(MASSES_G)), people=people)
    return frame, {index_of(frame, f"b{n}"): 1 for n in range(len(MASSES_G))}


@pytest.mark.parametrize(("second_g", "least"), [(20_000, 5_000), (10_000, 7_000)])
def test_a_trip_is_packed_with_the_least_largest_fraction(second_g: int, least: int) -> None:
    """20 kg fill two packs of 20 kg by half; with one of 10 kg the best is 13 or 14 and 7 kg."""
    frame, riding = _frame(second_g)
    answer = pack_exactly(frame, 0, riding, (), Run(10.0))
    assert answer.held is not None
    assert sum(answer.held.values()) == len(MASSES_G)
    assert (answer.bound, answer.proven, answer.infeasible) == (least, True, False)


def test_boxes_that_do_not_fit_are_infeasible() -> None:
    """Five boxes that two packs of 20 kg and 1 kg cannot share, since one takes 20 kg at most."""
    frame, riding = _frame(1_000)
    answer = pack_exactly(frame, 0, riding, (), Run(10.0), enough=9_999)
    assert answer.held is None
    assert answer.infeasible


def test_carriers_that_differ_are_no_identical_bins() -> None:
    """With the same caps the bins are packed and proven; with different ones nothing is said."""
    frame, riding = _frame()
    answer = pack_identical_carriers(
        frame, 0, riding, (), at_least=5_000, at_most=10_000, effort=Effort(10.0)
    )
    assert answer is not None
    held, bound = answer
    assert (sum(held.values()), bound) == (5, 5_000)
    frame, riding = _frame(10_000)
    args = {"at_least": 5_000, "at_most": 10_000, "effort": Effort(10.0)}
    assert pack_identical_carriers(frame, 0, riding, (), **args) is None
