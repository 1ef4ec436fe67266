"""Travel times by leg, method and factor."""

import pytest

from solver.problem import Conditions, TravelMethod
from solver.requirements.travel import travel
from tests.requirements.walking_world import Walk, defaults, leg, notices, only_figure, part_of


def hours(walk, day=1):
    """The travel time of that day."""
    return only_figure(part_of(travel, walk.problem()), "travel_time", day=day)


def by(method, **facts):
    """A walk reckoned by a method alone, without any factor."""
    conditions = Conditions(travel_method=method, travel_factor=1.0)
    return Walk(leg(**facts), conditions=conditions)


@pytest.mark.parametrize(
    ("method", "facts", "expected"),
    [
        # 20 km and 1000 m by Naismith's rule in metric form: 4 h + 1.667 h.
        (TravelMethod.NAISMITH, {"distance_m": 20_000, "ascent_m": 1_000}, 5.667),
        # An alpine club's worked examples of DIN 33466.
        (TravelMethod.DIN_33466, {"distance_m": 8_000, "ascent_m": 900}, 4.0),
        (TravelMethod.DIN_33466, {"distance_m": 8_000, "ascent_m": 1_200}, 5.0),
        # A text's worked example of Munter's method at rate 4: 3 h 37.5 min.
        (TravelMethod.MUNTER, {"distance_m": 9_500, "ascent_m": 500}, 3.625),
        # Tobler's report gives 5.037 km/h on the flat and 0.6 of it off the path.
        (TravelMethod.TOBLER, {"distance_m": 3_022, "ascent_m": 0}, 1.000),
        # 8 km at 4 km/h and 600 m up at 600 m/h by Langmuir.
        (TravelMethod.LANGMUIR, {"distance_m": 8_000, "ascent_m": 600}, 3.0),
    ],
)
def test_chosen_method(method, facts, expected):
    """Each method gives the hours of its own publication, to the minute that is printed."""
    assert hours(by(method, descent_m=0, **facts)).value == pytest.approx(expected, abs=0.009)


@pytest.mark.parametrize(
    ("method", "facts", "expected"),
    [
        # Tobler's report: 3.549 km/h at a slope of -0.2, and 0.6 of it off the path.
        (TravelMethod.TOBLER, {"distance_m": 5_000, "ascent_m": 1_000}, 5 / (0.6 * 3.549)),
        # Munter's rate downhill is 6: 9.5 km and 500 m are 14.5 units.
        (TravelMethod.MUNTER, {"distance_m": 9_500, "ascent_m": 500}, 14.5 / 6),
        # The same rate holds on the flat.
        (TravelMethod.MUNTER, {"distance_m": 6_000, "ascent_m": 0}, 1.0),
    ],
)
def test_way_back(method, facts, expected):
    """The way back is reckoned as the descent or the flat that it is."""
    figure = hours(by(method, descent_m=0, **facts), day=2)
    assert figure.value == pytest.approx(expected, abs=0.001)


def test_munter_on_the_flat_outward():
    """Outward on the flat Munter's rate is 6 as well, so 6 km take 1 h."""
    walk = by(TravelMethod.MUNTER, distance_m=6_000, ascent_m=0, descent_m=0)
    assert hours(walk).value == pytest.approx(1.0, abs=1e-9)


def test_langmuir_down_gently():
    """Coming down 600 m over 5 km, 6.8 degrees, Langmuir takes 20 min off the 1 h 15 min."""
    walk = by(TravelMethod.LANGMUIR, distance_m=5_000, ascent_m=600, descent_m=0)
    assert hours(walk, day=2).value == pytest.approx(1.25 - 20 / 60, abs=1e-9)


def test_langmuir_down_steeply():
    """Coming down 600 m over 2 km, 16.7 degrees, Langmuir puts 20 min on the 30 min."""
    walk = by(TravelMethod.LANGMUIR, distance_m=2_000, ascent_m=600, descent_m=0)
    assert hours(walk, day=2).value == pytest.approx(0.5 + 20 / 60, abs=1e-9)


def test_default_method_is_munter_twice_with_sled():
    """Without a method told, 8 km and 400 m with a sled are twice Munter's 3 h, and it says so."""
    walk = Walk(leg(distance_m=8_000, ascent_m=400, descent_m=0), with_sled=True)
    figure = hours(walk)
    assert figure.value == pytest.approx(6.0, abs=1e-9)
    assert defaults(figure) == {"travel_method": "munter", "travel_factor": 2.0}
    assert "made for snow" in figure.inputs[0].source


def test_default_factor_without_sled():
    """Without a sled the default factor is 1.5: 8 km and 400 m take 4.5 h."""
    assert hours(Walk(leg(distance_m=8_000, ascent_m=400, descent_m=0))).value == 4.5


def test_hours_of_leg_win():
    """Hours told with the leg are taken as they stand, whatever method and factor are chosen."""
    conditions = Conditions(travel_method=TravelMethod.TOBLER, travel_factor=3.0)
    figure = hours(Walk(leg(distance_m=8_000, hours_outbound=5.5), conditions=conditions))
    assert figure.value == 5.5
    assert figure.formula == "as given with the leg"


def test_heights_of_places_stand_in():
    """A leg without ascent takes the difference of its places' heights, and that is flagged."""
    walk = by(TravelMethod.NAISMITH, distance_m=5_000)
    figure = hours(walk)
    assert figure.value == pytest.approx(1 + 1_008 / 600, abs=1e-9)
    assert defaults(figure) == {"ascent": 1_008, "descent": 0}


def test_neither_hours_nor_distance():
    """A leg with neither hours nor distance gets a notice in each direction and no figure."""
    part = part_of(travel, Walk(leg()).problem())
    assert not part.figures
    assert len(notices(part, "travel_time_not_given")) == 2


def test_out_of_range():
    """61 km, beyond what the methods are taken for, get a notice that names the limit."""
    part = part_of(travel, Walk(leg(distance_m=61_000)).problem())
    assert not part.figures
    assert "0 to 60 km" in notices(part, "travel_time_not_given")[0].message


@pytest.mark.parametrize(("told_hours", "count"), [(7.9, 0), (8.0, 0), (8.1, 1)])
def test_long_day(told_hours, count):
    """A day of more than 8 h is told, one of 8 h is not."""
    part = part_of(travel, Walk(leg(hours_outbound=told_hours, hours_homeward=2.0)).problem())
    assert len(notices(part, "travel_day_long")) == count
