"""Hours and loads of a report after an expedition, against those of the plan."""

from __future__ import annotations

from dataclasses import replace

from service.translate.write.after.days import by_leg, mean_planned, measured_trips
from solver.problem import Direction
from tests.service.trip_home import rates, report, written


def test_hours_are_means_by_leg_and_direction():
    """6 h against the leg's 5 h outbound are 1.2 times; homeward follows from the method."""
    answer = written(hours=[{"day": 1, "time": "6 h"}, {"day": 4, "time": "90 min"}])
    out, home = answer.hours
    assert (out.from_, out.to, out.days) == ("road", "camp", [1])
    assert (out.planned_h, out.measured_h, out.ratio) == (5.0, 6.0, 1.2)
    # 4 km and 500 m down at 6 km (or 100 m) an hour with 1.5 for loads: (4 + 5) / 6 × 1.5.
    assert (home.planned_h, home.measured_h) == (2.25, 1.5)
    assert rates(answer) == {
        "/route/legs/0/hours_outbound": ("360 min", "300 min"),
        "/route/legs/0/hours_homeward": ("90 min", "135 min"),
        "/conditions/travel_factor": (1.0, 1.5),
    }
    assert all(rate.says_little for rate in answer.rates)


def test_loads_are_compared_part_by_part():
    """22 kg on the scale against 20 kg planned are 1.1 times, and so are both together."""
    answer = written(
        loads=[
            {"person_id": "ann", "day": 1, "mass": "22 kg"},
            {"person_id": "ben", "day": 4, "part": "pack", "mass": "22000 g"},
        ]
    )
    assert [(row.step, row.planned_kg, row.weighed_kg, row.ratio) for row in answer.loads] == [
        (1, 20.0, 22.0, 1.1)
    ] * 2
    assert answer.loads_ratio == 1.1


def test_a_leg_without_planned_hours_has_no_mean():
    """One trip of two has hours in the plan: their mean is not known."""
    trips = measured_trips(report(hours=[{"day": 1, "time": "6 h"}]))
    assert list(by_leg(trips)) == [("leg-1", Direction.OUTBOUND)]
    assert mean_planned(list(trips)) == 5.0
    assert mean_planned([*trips, replace(trips[0], planned=None)]) is None
