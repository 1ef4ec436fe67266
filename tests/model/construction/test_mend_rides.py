"""Greedy rides mended where they break a row."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from service.translate.read.requests import read_plan_request
from solver.model.construction.greedy_rides import greedy_rides
from solver.model.construction.mend_rides import mend_rides
from solver.model.formulation.build_frame import build_frame, sort_rows
from solver.model.formulation.flow_rows import keeps_flow_rows
from solver.model.formulation.redundant_losses import without_redundant_losses
from solver.model.rows import StockRow
from solver.model.rules import build_rows
from tests.model.frames import TWO, index_of
from tests.rules.worlds import world

EXAMPLES = Path(__file__).parents[3] / "examples"


@pytest.mark.parametrize("name", ["independent-three", "guided-six", "guided-twelve"])
def test_the_rides_of_the_examples_keep_every_row(name: str) -> None:
    """Nothing goes further than it may, and what is missing on some day goes on another."""
    problem = read_plan_request(json.loads((EXAMPLES / f"{name}.json").read_text())).problem
    frame = without_redundant_losses(build_frame(problem))
    rides = greedy_rides(frame)
    assert isinstance(rides, dict)
    assert keeps_flow_rows(frame, rides)


def test_a_unit_that_is_asked_for_earlier_goes_a_day_earlier() -> None:
    """Of two bags for the night of day 2 one must stand there on day 1: it goes a day earlier."""
    plain = build_frame(world("strip-c1-strip strip-c1 c1-strip", people=TWO))
    bag, night = index_of(plain, "g1/meal"), plain.world.clock.night_event[1]
    asked = StockRow("x", night, "c1", ((bag, 1),), 1)
    frame = sort_rows(plain.world, [*build_rows(plain.world), asked])
    late = {(bag, 2): 2}
    assert not keeps_flow_rows(frame, late)
    assert mend_rides(frame, late) == {(bag, 0): 1, (bag, 2): 1}
    assert mend_rides(plain, late) == late
