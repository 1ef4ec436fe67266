"""A trip on which everything stays in the pack or on the sled that it was in."""

from __future__ import annotations

from dataclasses import replace

from solver.model.assignment.build_plan import build_plan
from solver.model.assignment.by_trip import by_trip, riding
from solver.model.assignment.former_loads import read_former
from solver.model.formulation.former import Former
from solver.model.formulation.spread_slack import spread_slack
from solver.model.packing.as_before import as_before
from tests.model.frames import box, draft_of, index_of, two_with
from tests.rules.worlds import person

FRAME = two_with(box("a", 6_000), box("b", 3_000))
BEFORE = draft_of(FRAME, {"m1": "a", "m2": "b g1/meal*2"}, {"m1": "a", "m2": "b"})
HELD = by_trip(FRAME, BEFORE)[1]
SLACK = spread_slack(FRAME, BEFORE.rides())[1]


def _former() -> Former:
    return read_former(FRAME, build_plan(FRAME, BEFORE))


def test_loads_stay_as_they_were_up_to_their_own_peak() -> None:
    """6 kg of 20 fit under 30 %, and not under a limit that is lower by the least there is."""
    units = riding(HELD)
    assert as_before(FRAME, 1, units, SLACK, former=_former(), limit=3_000) == HELD
    assert as_before(FRAME, 1, units, SLACK, former=_former(), limit=2_999) is None


def test_nothing_is_kept_where_a_unit_was_with_nobody() -> None:
    """A box that did not ride on that trip before has no place to stay in."""
    former = _former()
    for had in (former.packed[1], former.had[1]):
        del had["b", "m2"]
    assert as_before(FRAME, 1, riding(HELD), SLACK, former=former, limit=10_000) is None


def test_nothing_is_kept_where_a_cap_is_broken_now() -> None:
    """m1 may carry 5 kg only, so the box of 6 kg cannot stay."""
    caps = replace(person("m1").caps, pack_g=5_000)
    people = (replace(person("m1"), caps=caps), person("m2"))
    weak = two_with(box("a", 6_000), box("b", 3_000), people=people)
    assert as_before(weak, 1, riding(HELD), SLACK, former=_former(), limit=10_000) is None


def test_a_pinned_unit_is_left_to_the_exact_search() -> None:
    """What is pinned must be in its own carrier, whatever was before."""
    pins = {(index_of(FRAME, "b"), 1): {"m1": 1}}
    pinned = replace(FRAME, pinned_units=pins)
    assert as_before(pinned, 1, riding(HELD), SLACK, former=_former(), limit=10_000) is None
