"""Whether somebody ill could be taken down while the others stay."""

import pytest

from solver.checker.ledger.facts import read_facts
from solver.checker.queries.evacuation import splits
from solver.problem import Evacuation, Purpose
from tests.rules.evacuation_worlds import SIX, camp, kit
from tests.rules.worlds import on_glacier


def _splits(*args, **changes):
    return splits(read_facts(on_glacier(camp(*args, **changes))))


def test_six_with_kit_for_two_parties_can_split_for_anybody():
    """For each of six people on the only night there is a split with all that it needs."""
    found = _splits()
    assert [split.person_id for split in found] == ["m1", "m2", "m3", "m4", "m5", "m6"]
    assert {split.missing for split in found} == {()}
    assert all(split.leaving[0] == split.person_id for split in found)
    assert all(len(split.leaving) + len(split.staying) == 6 for split in found)


@pytest.mark.parametrize("purpose", [Purpose.ROPE, Purpose.STOVE, Purpose.RESCUE_KIT])
def test_what_is_there_once_too_few_is_missing(purpose):
    """With one unit less of a purpose every split says that one more is missing."""
    words = f"1 more {purpose.value.replace('_', ' ')}"
    assert {split.missing for split in _splits(SIX, kit(purpose))} == {(words,)}


def test_only_whom_the_request_asks_about_from_the_day_asked():
    """A wish names a person and a first day; after the last night there is nothing to split."""
    assert [split.person_id for split in _splits(asked=(Evacuation("m2"),))] == ["m2"]
    assert _splits(asked=(Evacuation("m2", 2),)) == ()


def test_splits_are_looked_for_once():
    """Rules that ask for the splits of the same facts get the very same."""
    facts = read_facts(on_glacier(camp()))
    assert splits(facts) is splits(facts)
