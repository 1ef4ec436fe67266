"""Communicators kept apart: the checker with one, two and three of them on a trip."""

import pytest

from solver.problem import Purpose
from tests.rules.apart_worlds import apart_cases
from tests.rules.worlds import found

RULE = "communicators_kept_apart"
CASES = apart_cases(RULE, Purpose.COMMUNICATOR)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_no_pack_or_sled_has_all(case):
    """Of k >= 2 communicators on a trip one pack or sled holds at most k - 1."""
    assert found(case.problem, case.plan) == case.finds
