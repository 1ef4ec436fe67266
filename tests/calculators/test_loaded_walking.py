"""Walking with a load and in snow against measurements and limits that need no formula."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from solver.calculators.loaded_walking import (
    looney_2022_walking_watts_per_kg,
    ramaswamy_1966_sinking_kcal_per_km,
)
from solver.calculators.walking_energy import lcda_2019_graded_watts_per_kg
from tests.calculators.published_values import misses, rows

FUNCTIONS = [looney_2022_walking_watts_per_kg, ramaswamy_1966_sinking_kcal_per_km]
WALKER = {
    "resting_watts_per_kg": 1.0,
    "speed_m_per_s": 0.8,
    "grade_percent": 5,
    "load_fraction": 0.3,
    "terrain_factor": 1.0,
}
walkers = st.fixed_dictionaries(
    {
        "resting_watts_per_kg": st.floats(0.8, 1.5),
        "speed_m_per_s": st.floats(0.1, 1.8),
        "grade_percent": st.floats(0, 40),
        "load_fraction": st.floats(0, 0.6),
        "terrain_factor": st.floats(1, 3),
    }
)


@pytest.mark.parametrize(
    ("function", "row"), [(f, row) for f in FUNCTIONS for row in rows(f.__name__)]
)
def test_model_meets_its_published_figures(function, row) -> None:
    """Each model gives what was measured, within the measurement's own spread."""
    assert not misses(function, row)


@given(walker=walkers)
@pytest.mark.parametrize(
    ("argument", "step"),
    [
        ("load_fraction", 0.05),
        ("speed_m_per_s", 0.1),
        ("grade_percent", 1),
        ("terrain_factor", 0.1),
    ],
)
def test_more_of_anything_costs_more(argument: str, step: float, walker: dict[str, float]) -> None:
    """More load, speed, slope or worse ground always takes more power."""
    harder = walker | {argument: walker[argument] + step}
    assert looney_2022_walking_watts_per_kg(**harder) > looney_2022_walking_watts_per_kg(**walker)


@given(speed=st.floats(0.4, 1.7), grade=st.floats(-30, 40))
def test_without_a_load_it_reads_a_little_below_the_older_equation(speed, grade) -> None:
    """Without a load it lies 0 to 0.52 W/kg below the equation of 2019.

    The older equation's own standard error is 0.42 W/kg on slopes, so the two agree within a
    quarter more than that.
    """
    walker = WALKER | {"load_fraction": 0, "speed_m_per_s": speed, "grade_percent": grade}
    new = looney_2022_walking_watts_per_kg(**walker)
    old = lcda_2019_graded_watts_per_kg(speed_m_per_s=speed, grade_percent=grade)
    assert 0 <= old - new <= 0.52


@given(walker=walkers)
def test_a_descent_begins_without_a_jump(walker: dict[str, float]) -> None:
    """Just below level ground a descent costs what level ground costs."""
    barely = looney_2022_walking_watts_per_kg(**walker | {"grade_percent": -1e-9})
    level = looney_2022_walking_watts_per_kg(**walker | {"grade_percent": 0})
    assert barely == pytest.approx(level)


@given(walker=walkers, grade=st.floats(-40, 0))
def test_a_descent_never_costs_less_than_rest(walker: dict[str, float], grade: float) -> None:
    """No descent within the range comes out below the resting rate."""
    down = looney_2022_walking_watts_per_kg(**walker | {"grade_percent": grade})
    assert down > walker["resting_watts_per_kg"]


@given(sinkage=st.floats(0, 36), mass=st.floats(50, 150))
def test_deeper_snow_costs_more(sinkage: float, mass: float) -> None:
    """Every further centimetre of sinking costs more, and so does more mass."""
    at = ramaswamy_1966_sinking_kcal_per_km(moving_mass_kg=mass, sinkage_cm=sinkage)
    deeper = ramaswamy_1966_sinking_kcal_per_km(moving_mass_kg=mass, sinkage_cm=sinkage + 1)
    assert deeper > at
    heavier = ramaswamy_1966_sinking_kcal_per_km(moving_mass_kg=mass + 5, sinkage_cm=sinkage + 1)
    assert heavier > deeper
