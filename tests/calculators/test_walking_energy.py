"""Walking energy against equations, measured means and the limits that need no formula."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from solver.calculators.walking_energy import (
    erdc_snow_terrain_factor,
    lcda_2019_graded_watts_per_kg,
    lcda_2019_level_watts_per_kg,
    minetti_2002_walking_j_per_kg_m,
    pandolf_1976_snow_terrain_factor,
    pandolf_1977_walking_watts,
    santee_2003_descent_watts,
    snow_compression_cm,
    terrain_factor,
)
from tests.calculators.published_values import misses, rows

FUNCTIONS = [
    erdc_snow_terrain_factor,
    lcda_2019_graded_watts_per_kg,
    lcda_2019_level_watts_per_kg,
    minetti_2002_walking_j_per_kg_m,
    pandolf_1976_snow_terrain_factor,
    pandolf_1977_walking_watts,
    santee_2003_descent_watts,
    snow_compression_cm,
    terrain_factor,
]
PUBLISHED = [(function, row) for function in FUNCTIONS for row in rows(function.__name__)]
WALKER = {
    "body_mass_kg": 80,
    "load_kg": 20,
    "speed_m_per_s": 1.0,
    "grade_percent": 5,
    "terrain_factor": 1.3,
}
walkers = st.fixed_dictionaries(
    {
        "body_mass_kg": st.floats(50, 120),
        "load_kg": st.floats(0, 40),
        "speed_m_per_s": st.floats(0.1, 2.0),
        "grade_percent": st.floats(0, 30),
        "terrain_factor": st.floats(1, 3),
    }
)


@pytest.mark.parametrize(("function", "row"), PUBLISHED)
def test_model_meets_its_published_figures(function, row) -> None:
    """Each model gives the figures of its source within their tolerance."""
    assert not misses(function, row)


def test_pandolf_at_rest_is_one_and_a_half_watts_a_kilogram() -> None:
    """Standing without a load costs 1.5 W a kilogram of body mass, the equation's own limit."""
    rest = {"load_kg": 0, "speed_m_per_s": 0, "grade_percent": 0, "terrain_factor": 1}
    assert pandolf_1977_walking_watts(body_mass_kg=62, **rest) == 1.5 * 62


@given(walker=walkers)
@pytest.mark.parametrize(
    ("argument", "step"),
    [("load_kg", 1), ("speed_m_per_s", 0.1), ("grade_percent", 1), ("terrain_factor", 0.1)],
)
def test_more_of_anything_costs_more(argument: str, step: float, walker: dict[str, float]) -> None:
    """More load, speed, slope or worse ground always takes more power in the Pandolf equation."""
    harder = walker | {argument: walker[argument] + step}
    assert pandolf_1977_walking_watts(**harder) > pandolf_1977_walking_watts(**walker)


@given(walker=walkers, grade=st.floats(-30, 0))
def test_a_descent_costs_between_standing_and_level_walking(walker, grade: float) -> None:
    """The corrected descent is never above level walking and never below standing."""
    down = santee_2003_descent_watts(**walker | {"grade_percent": grade})
    level = pandolf_1977_walking_watts(**walker | {"grade_percent": 0})
    standing = pandolf_1977_walking_watts(**walker | {"grade_percent": 0, "speed_m_per_s": 0})
    assert standing <= down <= level


@given(walker=walkers)
def test_a_descent_begins_without_a_jump(walker: dict[str, float]) -> None:
    """Just below level ground the descent costs what level ground costs."""
    barely = santee_2003_descent_watts(**walker | {"grade_percent": -1e-9})
    level = pandolf_1977_walking_watts(**walker | {"grade_percent": 0})
    assert barely == pytest.approx(level)


@given(speed=st.floats(0, 1.85), grade=st.floats(0, 44))
def test_lcda_grows_with_speed_and_slope(speed: float, grade: float) -> None:
    """Faster or steeper uphill walking takes more power in the LCDA equation."""
    base = lcda_2019_graded_watts_per_kg(speed_m_per_s=speed, grade_percent=grade)
    faster = lcda_2019_graded_watts_per_kg(speed_m_per_s=speed + 0.1, grade_percent=grade)
    assert faster > base
    steeper = lcda_2019_graded_watts_per_kg(speed_m_per_s=speed + 0.1, grade_percent=grade + 1)
    assert steeper > faster


@given(speed=st.floats(0, 1.96))
def test_lcda_on_the_level_is_one_model(speed: float) -> None:
    """At a slope of zero the graded equation is the level equation."""
    graded = lcda_2019_graded_watts_per_kg(speed_m_per_s=speed, grade_percent=0)
    assert graded == lcda_2019_level_watts_per_kg(speed_m_per_s=speed)


@given(slope=st.floats(0, 0.44))
def test_minetti_grows_uphill(slope: float) -> None:
    """A steeper ascent takes more energy a metre in Minetti's polynomial."""
    assert minetti_2002_walking_j_per_kg_m(slope=slope + 0.01) > minetti_2002_walking_j_per_kg_m(
        slope=slope
    )


def test_minetti_overstates_the_flat() -> None:
    """The polynomial's 2.5 on the flat lies above the measured 1.64 +/- 0.50, as documented."""
    assert minetti_2002_walking_j_per_kg_m(slope=0) > 1.64 + 0.50


@given(depth_cm=st.floats(0, 39), compression_cm=st.floats(0, 99))
def test_deeper_snow_is_never_easier(depth_cm: float, compression_cm: float) -> None:
    """Both snow factors never fall with depth."""
    shallow = pandolf_1976_snow_terrain_factor(footprint_depth_cm=depth_cm)
    assert pandolf_1976_snow_terrain_factor(footprint_depth_cm=depth_cm + 1) > shallow
    pressed = erdc_snow_terrain_factor(compression_cm=compression_cm)
    assert erdc_snow_terrain_factor(compression_cm=compression_cm + 1) >= pressed


@given(depth_cm=st.floats(0, 5))
def test_the_two_snow_factors_agree_in_shallow_snow(depth_cm: float) -> None:
    """Up to 5 cm the two snow equations lie within 10 % of each other, as documented."""
    linear = pandolf_1976_snow_terrain_factor(footprint_depth_cm=depth_cm)
    cubic = erdc_snow_terrain_factor(compression_cm=depth_cm)
    assert abs(cubic / linear - 1) < 0.10


@given(depth_cm=st.floats(1, 100), density=st.floats(0.05, 0.85))
def test_denser_snow_gives_way_less(depth_cm: float, density: float) -> None:
    """Denser snow of the same depth is pressed down less, and never further than its depth."""
    pressed = snow_compression_cm(snow_depth_cm=depth_cm, snow_density_g_per_cm3=density)
    denser = snow_compression_cm(snow_depth_cm=depth_cm, snow_density_g_per_cm3=density + 0.05)
    assert 0 < denser < pressed < depth_cm


@pytest.mark.parametrize(
    ("change", "told"),
    [
        ({"body_mass_kg": 39}, "body_mass_kg"),
        ({"load_kg": -1}, "load_kg"),
        ({"load_kg": 81}, "load_kg: 81 kg was given; allowed is 0 to 80 kg."),
        ({"speed_m_per_s": 2.6}, "speed_m_per_s"),
        ({"grade_percent": -0.1}, "For a descent use santee_2003_descent_watts"),
        ({"grade_percent": 46}, "grade_percent"),
        ({"terrain_factor": 0.9}, "terrain_factor"),
        ({"speed_m_per_s": float("nan")}, "speed_m_per_s"),
    ],
)
def test_pandolf_refuses_what_is_out_of_range(change: dict[str, float], told: str) -> None:
    """The Pandolf equation refuses descents and walkers outside its range."""
    with pytest.raises(ValueError, match=told):
        pandolf_1977_walking_watts(**WALKER | change)


@pytest.mark.parametrize("grade", [0.1, -30.1])
def test_santee_refuses_other_slopes(grade: float) -> None:
    """The descent correction refuses ascents and very steep descents."""
    with pytest.raises(ValueError, match="grade_percent"):
        santee_2003_descent_watts(**WALKER | {"grade_percent": grade})


@pytest.mark.parametrize(
    ("function", "given_arguments", "told"),
    [
        (lcda_2019_level_watts_per_kg, {"speed_m_per_s": 1.97}, "speed_m_per_s"),
        (lcda_2019_level_watts_per_kg, {"speed_m_per_s": -0.1}, "speed_m_per_s"),
        (
            lcda_2019_graded_watts_per_kg,
            {"speed_m_per_s": 1, "grade_percent": 45.1},
            "grade_percent",
        ),
        (
            lcda_2019_graded_watts_per_kg,
            {"speed_m_per_s": 1, "grade_percent": -40.1},
            "grade_percent",
        ),
        (minetti_2002_walking_j_per_kg_m, {"slope": 0.46}, "slope"),
        (minetti_2002_walking_j_per_kg_m, {"slope": 8}, "Write 8 % as 0.08"),
        (pandolf_1976_snow_terrain_factor, {"footprint_depth_cm": 41}, "footprint_depth_cm"),
        (erdc_snow_terrain_factor, {"compression_cm": -1}, "compression_cm"),
        (erdc_snow_terrain_factor, {"compression_cm": 101}, "compression_cm"),
        (
            snow_compression_cm,
            {"snow_depth_cm": 10, "snow_density_g_per_cm3": 300},
            "snow_density_g_per_cm3: 300 g/cm3",
        ),
        (terrain_factor, {"ground": "ice"}, "ground: 'ice' was given"),
    ],
)
def test_model_refuses_what_is_out_of_range(function, given_arguments, told) -> None:
    """Each model refuses what lies outside the range that its docstring names."""
    with pytest.raises(ValueError, match=told):
        function(**given_arguments)
