"""How long a check takes on a plan as large as the service is asked for."""

import time

from solver.checker import check
from solver.problem import read_timeline
from tests.rules.worlds import item, person, plan_of, world
from tests.yardstick import yardstick_seconds

PEOPLE = ("m1", "m2", "m3")
DAYS = "strip-c1-strip " * 5 + "strip-c1 " + "c1-c2-c1 " * 4 + "c1-c2 c2-c1-strip"


MOST_YARDSTICKS = 0.40
"""50 ms of processor time where a yardstick takes 125 ms; 0.28 to 0.32 measured, idle and busy."""


def test_a_check_of_22_trips_3_people_and_120_units_takes_less_than_50_ms():
    """The best of five checks of 7,900 load entries, by the pace of the machine just now."""
    problem = world(
        DAYS,
        people=tuple(person(who, pack_g=10**6, pack_volume_ml=10**6) for who in PEOPLE),
        gear=tuple(item(f"piece-{number}", count=3) for number in range(119)),
    )
    trips = read_timeline(problem).trips
    kit = " ".join(f"piece-{number}" for number in range(119))
    loads = [dict.fromkeys(PEOPLE, kit) for _ in trips]
    loads[10] = {**loads[10], "m1": f"{kit} g1/meal*18"}
    loads[19] = {**loads[19], "m1": f"{kit} g1/meal*3"}
    plan = plan_of(problem, *loads)
    assert len(trips) == 22
    assert check(problem, plan).findings == ()
    pace = yardstick_seconds()
    spent = []
    for _ in range(5):
        begin = time.process_time()
        check(problem, plan)
        spent.append(time.process_time() - begin)
    assert min(spent) < MOST_YARDSTICKS * min(pace, yardstick_seconds())
