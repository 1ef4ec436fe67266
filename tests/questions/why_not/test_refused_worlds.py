"""The short form of the proof over seeded worlds; the long form runs by command."""

from __future__ import annotations

import pytest

from tests.questions.why_not.refused_worlds import judge


@pytest.mark.parametrize("number", range(6))
def test_what_is_said_of_a_refused_world_is_so(number):
    """A clash has no plan, each part of it is needed, and each change that is named helps."""
    assert judge(number).faults == ()
