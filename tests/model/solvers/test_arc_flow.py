"""Packing into bins that are all alike, against known answers and against trying everything."""

from __future__ import annotations

from itertools import product
from pathlib import Path
from random import Random

import pytest

from solver.model.solvers.arc_flow import BinPacking, pack_identical_bins
from solver.model.solvers.highs_run import Effort
from tests.pipeline.bin_packing import triplet_instances, uniform_instances
from tests.pipeline.test_outside import graham_pieces


def assert_packed(answer: BinPacking, sizes: tuple[int, ...], bins: int, capacity: int) -> None:
    """Every piece is in exactly one of so many bins and none holds more than its capacity."""
    assert answer.bins is not None
    assert len(answer.bins) == bins
    assert sorted(index for pieces in answer.bins for index in pieces) == list(range(len(sizes)))
    assert max(sum(sizes[index] for index in pieces) for pieces in answer.bins) <= capacity


@pytest.mark.parametrize("machines", range(2, 9))
def test_grahams_pieces_fit_their_least_makespan_and_no_less(machines: int) -> None:
    """Graham's worst case for longest first fits m bins of 3m and no m bins of 3m − 1."""
    sizes = tuple(graham_pieces(machines))
    at = pack_identical_bins(sizes, bins=machines, capacity=3 * machines, effort=Effort(30))
    assert_packed(at, sizes, machines, 3 * machines)
    below = pack_identical_bins(sizes, bins=machines, capacity=3 * machines - 1, effort=Effort(30))
    assert below.infeasible


def test_small_packings_agree_with_trying_every_one() -> None:
    """For up to seven pieces in two or three bins, feasible means that some way fits."""
    chance = Random(1)
    for _ in range(60):
        bins = chance.choice((2, 3))
        sizes = tuple(chance.randint(0, 12) for _ in range(chance.randint(1, 7)))
        capacity = max(1, sum(sizes) // bins + chance.randint(0, 2))
        fits = any(
            all(
                sum(size for size, bin_ in zip(sizes, where, strict=True) if bin_ == number)
                <= capacity
                for number in range(bins)
            )
            for where in product(range(bins), repeat=len(sizes))
        )
        answer = pack_identical_bins(sizes, bins=bins, capacity=capacity, effort=Effort(30))
        assert answer.infeasible is not fits
        if fits:
            assert_packed(answer, sizes, bins, capacity)


def test_too_many_arcs_leave_the_question_open() -> None:
    """A world too fine for this way of packing is neither packed nor called infeasible."""
    sizes = tuple(1000 + 37 * number for number in range(40))
    answer = pack_identical_bins(sizes, bins=10, capacity=9_000, effort=Effort(30), most_arcs=100)
    assert answer == BinPacking(None, infeasible=False)


def test_triplets_are_packed_without_a_gram_to_spare(outside_data: Path) -> None:
    """Falkenauer's first triplets fill 40 bins of 1000 exactly."""
    instance = triplet_instances(outside_data)[0]
    answer = pack_identical_bins(instance.sizes, bins=40, capacity=1000, effort=Effort(60))
    assert_packed(answer, instance.sizes, 40, 1000)


def test_uniform_pieces_are_packed_in_the_known_number_of_bins(outside_data: Path) -> None:
    """A uniform instance whose best of 1996 was one too many fits the number known since."""
    instance = uniform_instances(outside_data)[8]
    answer = pack_identical_bins(instance.sizes, bins=50, capacity=150, effort=Effort(60))
    assert_packed(answer, instance.sizes, 50, 150)
