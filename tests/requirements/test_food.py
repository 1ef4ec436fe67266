"""Food against need, target and the usual mass."""

from dataclasses import replace

import pytest

from solver.problem import Calendar, Conditions, Day, Visit
from solver.requirements.energy import energy
from solver.requirements.food import food
from tests.requirements.walking_world import (
    PHYSIQUE,
    SET,
    Walk,
    defaults,
    figures,
    leg,
    notices,
    only_figure,
    part_of,
)

# A hauling day up and the way down: what such days come to stands in the energy tests.
HARD = leg(distance_m=12_600, ascent_m=1_008, descent_m=0, hours_outbound=5.0, hours_homeward=3.0)
# Half an hour each way, so that the need is mostly rest and work in camp.
EASY = leg(distance_m=1_500, ascent_m=0, descent_m=0, hours_outbound=0.5, hours_homeward=0.5)


def said(energy_kcal=4_100, camp_m=2_008, its_leg=EASY, loss=None, **of_set):
    """What the food part says of a night with a set of that energy at a camp of that height."""
    walk = Walk(
        its_leg,
        camp_m=camp_m,
        conditions=Conditions(physiques=(PHYSIQUE,), appetite_loss_share=loss),
        night_set=replace(SET, energy_kcal=energy_kcal, **of_set),
    )
    return part_of(food, walk.problem())


def mean_need():
    """The mean of the two easy days' energy, which feeds the night between them [kcal]."""
    days = part_of(energy, Walk(EASY, conditions=Conditions(physiques=(PHYSIQUE,))).problem())
    return sum(only_figure(days, "day_energy", day=day).value for day in (1, 2)) / 2


def test_deficit_names_need_and_place():
    """2000 kcal against the two days' mean need are a deficit by its share, with place and day."""
    (notice,) = notices(said(energy_kcal=2_000), "ration_short")
    assert notice.message == (
        f"camp, day 1: 2000 kcal against a need of about {round(mean_need(), -2):.0f} kcal; "
        f"deficit {100 * (1 - 2_000 / mean_need()):.0f} %."
    )


@pytest.mark.parametrize(("beside", "count"), [(0, 1), (1, 0)])
def test_deficit_at_its_limit(beside, count):
    """A set just below the need is short, the next whole kilocalorie above it is not."""
    energy_kcal = int(mean_need()) + beside
    assert len(notices(said(energy_kcal=energy_kcal), "ration_short")) == count


def test_need_is_that_of_both_days():
    """A hard day up and the way down need more than easy ones, so their food is short."""
    assert notices(said(energy_kcal=int(mean_need()) + 1, its_leg=HARD), "ration_short")


@pytest.mark.parametrize(
    ("camp_m", "low_kcal"),
    [(2999, 4000), (3000, 3700), (3999, 3700), (4000, 3700), (6000, 3700)],
)
def test_target_by_height(camp_m, low_kcal):
    """The target falls from 4000 to 3700 kcal from 3000 m on, and no further from 4000 m on."""
    figure = only_figure(said(camp_m=camp_m), "ration_share")
    assert figure.value == pytest.approx(100 * 4_100 / low_kcal, abs=1e-9)


@pytest.mark.parametrize(("energy_kcal", "count"), [(3_999, 1), (4_000, 0)])
def test_below_target(energy_kcal, count):
    """At 2008 m 3999 kcal are below the low band and 4000 kcal are not."""
    assert len(notices(said(energy_kcal=energy_kcal), "ration_below_target")) == count


def test_storm_target():
    """A storm set is held against 2800 kcal wherever it is eaten."""
    figure = only_figure(said(energy_kcal=2_800, storm=True), "ration_share")
    assert figure.value == pytest.approx(100.0, abs=1e-9)


def test_appetite_loss_by_default():
    """At 5000 m 16.9 % of 4100 kcal are left, so 3406 kcal are eaten, and the share is flagged.

    The line of Rose et al. 1988: (5000 - 2500) / (8848 - 2500) x (1 - 1789 / 3136) = 0.1692.
    """
    figure = only_figure(said(camp_m=5_000), "ration_energy")
    assert figure.value == pytest.approx(3_406, abs=1)
    assert defaults(figure) == {"appetite_loss": 0.1692}


def test_appetite_loss_as_told():
    """A loss of 30 % that the request tells is taken aloft and is no default."""
    figure = only_figure(said(camp_m=5_000, loss=0.30), "ration_energy")
    assert figure.value == pytest.approx(2_870, abs=1e-9)
    assert defaults(figure) == {}


def test_no_appetite_loss_low_down():
    """At 2008 m all of the set is eaten, even where a loss for high camps is told."""
    assert only_figure(said(loss=0.30), "ration_energy").value == 4_100


@pytest.mark.parametrize(("gross_g", "count"), [(759, 1), (760, 0), (1_210, 0), (1_211, 1)])
def test_usual_mass(gross_g, count):
    """Less its 60 g of packaging, food of 0.70 to 1.15 kg is usual and beyond it is told."""
    assert len(notices(said(gross_g=gross_g), "ration_mass_unusual")) == count


def test_density_by_hand():
    """4100 kcal in 1000 g of food, 60 g of packaging left out, are 4.1 kcal/g."""
    assert only_figure(said(), "ration_density").value == pytest.approx(4.1, abs=1e-12)


def test_impossible_density():
    """10 000 kcal in 1000 g, richer than fat, get a notice in place of a density."""
    part = said(energy_kcal=10_000)
    assert not figures(part, "ration_density")
    assert "9.3 kcal/g" in notices(part, "ration_density_not_given")[0].message


def test_unknown_energy():
    """A set without energy is told of, and no ration is made up for it."""
    part = said(energy_kcal=None)
    assert notices(part, "ration_energy_unknown")
    assert not figures(part, "ration_energy")


def test_place_out_of_range():
    """A camp at 9000 m, above all bands, gets a notice in place of a figure."""
    part = said(camp_m=9_000)
    assert not figures(part, "ration_energy")
    assert "8849 m" in notices(part, "ration_energy_not_given")[0].message


def test_allergen_caution():
    """Wherever anybody eats there is the standing caution about allergens."""
    assert [notice.is_caution for notice in notices(said(), "food_allergens")] == [True]


def test_deficit_of_a_person_by_day():
    """A person's deficit is the mean need of both days less what is eaten."""
    figure = only_figure(said(energy_kcal=2_000), "energy_deficit", person_id="ann")
    assert dict(figure.parts) == {"day_1": pytest.approx(mean_need() - 2_000)}
    assert figure.low < figure.value < figure.high


def test_deficits_of_all_nights_add_up():
    """A person's deficits, one for each night, add up to the figure."""
    figure = only_figure(starved(3), "energy_deficit", person_id="ann")
    assert list(dict(figure.parts)) == ["day_1", "day_2", "day_3", "day_4"]
    assert sum(dict(figure.parts).values()) == pytest.approx(figure.value)


def test_surplus_is_a_deficit_below_zero():
    """Food beyond the need shows as a deficit below 0, and no mass is lost."""
    part = said(energy_kcal=6_000)
    assert only_figure(part, "energy_deficit", person_id="ann").value < 0
    assert only_figure(part, "body_mass_lost", person_id="ann").value == 0


def test_body_mass_lost_by_hand():
    """A deficit is paid with 6468 kcal a kilogram: 0.61 x 9440 + 0.39 x 1820."""
    figure = only_figure(said(energy_kcal=2_000), "body_mass_lost", person_id="ann")
    assert figure.value == pytest.approx((mean_need() - 2_000) / 6_468.2, rel=1e-4)
    assert figure.low < figure.value < figure.high


def starved(days):
    """What is said of a person who eats 1000 kcal a day for that many nights."""
    walk = Walk(EASY, conditions=Conditions(physiques=(PHYSIQUE,)))
    problem = replace(walk.problem(), night_sets=(replace(SET, energy_kcal=1_000),))
    stay = Day((Visit(("north",), ("camp",)),))
    first, last = problem.calendar.days
    return part_of(food, replace(problem, calendar=Calendar((first, *[stay] * days, last))))


def test_great_loss_is_advised_against():
    """Who likely loses 5 % of the body is told how much, in how many nights; who loses 4 % not."""
    (notice,) = notices(starved(13), "body_mass_loss")
    assert "ann likely loses 4." in notice.message
    assert "in 14 nights" in notice.message
    assert not notices(starved(9), "body_mass_loss")


def test_energy_not_given_gives_no_loss():
    """Where a night's food has no energy nobody's loss is made up."""
    part = said(energy_kcal=None)
    assert not figures(part, "body_mass_lost")
    assert not figures(part, "energy_deficit")
