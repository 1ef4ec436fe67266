"""A pace that lasts: hours of a leg against what people can spend in them."""

from __future__ import annotations

from dataclasses import replace

import pytest

from solver.problem import LegMode
from solver.requirements.energy import energy
from tests.requirements.test_energy import EXAMPLES, example, said
from tests.requirements.walking_world import Walk, leg, notices, part_of

HIGH = Walk(
    leg(
        LegMode.PACK,
        distance_m=3_000,
        ascent_m=750,
        descent_m=0,
        hours_outbound=1.5,
        hours_homeward=1.5,
    ),
    camp_m=5_300,
)


def test_a_pace_beyond_the_ceiling_is_told_with_hours():
    """750 m up with 25 kg in 1.5 h at 5300 m are more than half of what 80 kg can spend there."""
    (notice,) = notices(said(HIGH), "pace_above_ceiling")
    assert dict(notice.about) == {"leg_id": "l1", "direction": "outbound"}
    assert "in 1.5 h asks" in notice.message
    assert "lighter load" in notice.message


def test_the_hours_that_it_names_are_kept_up():
    """In the hours that the finding names, rounded up, nothing is found."""
    (notice,) = notices(said(HIGH), "pace_above_ceiling")
    hours = float(notice.message.partition("Give it ")[2].partition(" h")[0])
    assert hours > 1.5
    slower = replace(HIGH, leg=replace(HIGH.leg, hours_outbound=1.25 * hours))
    assert not notices(said(slower), "pace_above_ceiling")


@pytest.mark.parametrize(("hours", "count"), [(0.9, 0), (1.0, 1)])
def test_less_than_an_hour_is_not_judged(hours, count):
    """Half of the ceiling is a limit for hours; a leg of 0.9 h is not judged, one of 1 h is."""
    short = leg(LegMode.PACK, distance_m=1_500, ascent_m=500, descent_m=0, hours_outbound=hours)
    part = said(Walk(short, camp_m=5_300))
    assert len(notices(part, "pace_above_ceiling")) == count


def test_hours_not_given_are_not_judged():
    """A leg without hours of its own has none that could be too short."""
    assert not notices(
        said(replace(HIGH, leg=replace(HIGH.leg, hours_outbound=None))), "pace_above_ceiling"
    )


@pytest.mark.parametrize("name", EXAMPLES)
def test_examples_keep_a_pace_that_lasts(name):
    """No leg of the examples asks more than half of anybody's ceiling."""
    assert not notices(part_of(energy, example(name)), "pace_above_ceiling")
