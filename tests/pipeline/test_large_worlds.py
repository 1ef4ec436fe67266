"""A smaller cousin of the worlds of `python -m tests.pipeline.large_worlds`."""

import pytest

from solver.checker.queries import fractions
from tests.pipeline.large_worlds import ending, large_request


def test_a_large_world_with_every_rule_waived_has_a_plan_that_both_agree_on() -> None:
    """Six people with sleds and total caps, eight days and forty items end as solved."""
    assert ending(large_request(6, 8, 40), 30.0).startswith("Solved")


def test_a_check_that_still_counts_the_waived_cap_is_seen(monkeypatch: pytest.MonkeyPatch) -> None:
    """Where the check counts the total caps that are waived, the same plan is withheld."""
    monkeypatch.setattr(
        fractions,
        "counts_total_cap",
        lambda _, burden: burden.person.caps.total_g is not None and len(burden.pulls) == 1,
    )
    told = ending(large_request(6, 8, 40), 30.0)
    assert told.startswith("withheld: peak_load is ")
