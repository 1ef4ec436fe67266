"""People and haulers on trips, and what is on a body anyhow."""

from __future__ import annotations

from solver.model.instance.world import build_world
from solver.model.rules import load_caps
from solver.problem import Sled
from tests.rules.worlds import person, world

SLED = Sled("s1", "m1", tare_g=2_000, mass_limit_g=40_000, volume_ml=90_000)


def test_haulers_are_on_sled_legs_only_and_rows_hold_the_tare() -> None:
    """Of two legs the first is a sled leg: m1 hauls up and down it, with the tare in each row."""
    people = (person("m1", sled_g=30_000, water_g=1_000, first_lunch_g=300), person("m2"))
    problem = world(
        "strip-c1-c2-c1-strip", people=people, sleds=(SLED,), sled_leg_factors=(80, 100)
    )
    built = build_world(problem)
    assert len(list(load_caps.people_on_trips(built))) == 8
    hauled = list(load_caps.haulers_on_trips(built))
    assert [(trip.index, who.person_id) for trip, who, _ in hauled] == [(0, "m1"), (3, "m1")]
    rows = load_caps.sled_rows(built, "x", lambda t, p, s: 7, in_fraction=False)
    assert [(row.trip, row.fixed, row.cap, row.in_sled) for row in rows] == [
        (0, 2_000, 7, True),
        (3, 2_000, 7, True),
    ]
    trip = built.timeline.trips[0]
    assert load_caps.on_body_g(built, trip, problem.person("m1")) == 1_300
