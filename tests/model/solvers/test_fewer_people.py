"""Where two people can settle a trip with as few changes, a third does not repack."""

from __future__ import annotations

from dataclasses import replace

import pytest

from solver.model.assignment.build_plan import build_plan
from solver.model.assignment.by_trip import by_trip
from solver.model.assignment.draft import Draft, Held
from solver.model.assignment.former_loads import read_former
from solver.model.formulation.frame import Frame
from solver.model.formulation.spread_slack import spread_slack
from solver.model.run import Run
from solver.model.solvers.fewer_people import among_fewer_people
from tests.model.frames import box, draft_of, index_of, two_with
from tests.rules.worlds import person

MASSES_G = {"a": 3_000, "x": 7_000, "b": 2_000, "y": 5_000, "c": 1_000, "z": 4_000}
UP = "g1/meal*3"
BEFORE = {"m1": "a x", "m2": "b y", "m3": "c z"}
ROUND = {"m1": "x", "m2": "a y", "m3": "b c z"}
"""m1 gives a to m2, who gives b to m3: two changes among three."""


def _frame(m3_pack_g: int) -> Frame:
    """m1 has 10 kg and may carry 8, m2 may take 1 kg more; m3 has 5 kg."""
    caps_g = {"m1": 8_000, "m2": 8_000, "m3": m3_pack_g}
    people = tuple(
        replace(person(m), caps=replace(person(m).caps, pack_g=g)) for m, g in caps_g.items()
    )
    return two_with(*(box(name, g) for name, g in MASSES_G.items()), people=people)


def _settled(frame: Frame) -> tuple[Held, Held]:
    """The way round of three and what comes of it."""
    up = {**BEFORE, "m2": f"{BEFORE['m2']} {UP}"}
    former = read_former(frame, build_plan(frame, draft_of(frame, up, BEFORE)))
    after = draft_of(frame, up, ROUND)
    held, slack = by_trip(frame, after)[1], spread_slack(frame, after.rides())[1]
    return held, among_fewer_people(frame, 1, held, slack, Run(5.0), former=former, limit=10_000)


def test_an_exchange_of_two_replaces_a_way_round_of_three() -> None:
    """m3 may take 2 kg more: a goes there for c, which is as few changes, and m2 keeps all."""
    frame = _frame(7_000)
    _, few = _settled(frame)
    expected = draft_of(frame, {}, {"m1": "c x", "m2": "b y", "m3": "a z"})
    assert Draft({(cargo, 1, who): n for (cargo, who), n in few.items()}) == expected


@pytest.mark.parametrize("m3_pack_g", [6_999, 20_000])
def test_loads_stay_where_two_cannot_settle_it(m3_pack_g: int) -> None:
    """With less room for m3 nobody else can; with much more, a alone goes to m3."""
    frame = _frame(m3_pack_g)
    held, few = _settled(frame)
    if m3_pack_g < 7_000:
        assert few == held
    else:
        assert few[index_of(frame, "a"), "m3"] == 1
        assert few[index_of(frame, "b"), "m2"] == 1
