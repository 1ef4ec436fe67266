"""Stays: runs of nights at a place, and the sacks that each leaves."""

from solver.checker.ledger.meals import read_meals
from solver.checker.ledger.stays import Stay, read_stays, sacks
from solver.problem import NightSet, Waste, read_timeline
from tests.rules.worlds import person, world

DAYS = "strip-c1 c1 c1-strip strip-c1 c1-strip"


def test_a_stay_ends_where_a_night_is_slept_elsewhere():
    """Two nights, one away and one more make two stays at the camp, counted from one."""
    stays = read_stays(read_timeline(world(DAYS)))
    assert stays == (Stay("c1", 1, (1, 2)), Stay("c1", 2, (4,)), Stay("strip", 1, (3,)))


def test_a_stay_leaves_its_packaging_and_waste_in_even_sacks():
    """Two nights of 50 g packaging and 90 g waste make sacks of 50 g and of 90 g."""
    problem = world(
        "strip-c1 c1 c1-strip",
        people=(person(),),
        night_sets=(NightSet("meal", "g1", 500, 50, 0, 0, 0),),
        waste=Waste(waste_g_per_person_night=90, trash_sack_g=60, human_waste_sack_g=90),
    )
    timeline = read_timeline(problem)
    made = list(sacks(problem, timeline, read_meals(problem, timeline)))
    assert {(stay.place_id, stay.days[-1]) for stay, _ in made} == {("c1", 2)}
    masses = {unit.unit_id: (unit.mass_g, unit.volume_ml) for _, unit in made}
    assert masses == {
        "trash/c1/1-1": (50, 250),
        "trash/c1/1-2": (50, 250),
        "human-waste/c1/1-1": (90, 180),
        "human-waste/c1/1-2": (90, 180),
    }
