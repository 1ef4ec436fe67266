"""Stoves as a resource: hours of melting by kitchen, and what does not fit."""

from __future__ import annotations

from dataclasses import replace

import pytest

from solver.problem import FuelKind, Item, Need, NeedKind, Purpose, read_timeline
from solver.requirements.consumption import night_meals
from solver.requirements.fuel import fuel
from solver.requirements.melting import melting_part
from tests.requirements.snow_world import WORKED, snow_world


def kitchen(people=4, stoves=1, **conditions):
    """A camp at 4300 m where so many share so many stoves; 2664 kJ a person and night."""
    problem = snow_world(conditions=replace(WORKED, **conditions))
    first = problem.roster[0]
    roster = tuple(replace(first, person_id=f"p{number}") for number in range(people))
    stove = Item("stove", 480, 1_000, Need(NeedKind.EVERY_NIGHT), stoves, purpose=Purpose.STOVE)
    night_sets = tuple(replace(one, sets_per_bag=1) for one in problem.night_sets)
    return replace(problem, roster=roster, gear=(stove,), night_sets=night_sets)


def said(problem):
    """Hours at the camp, and the findings about them."""
    part = fuel(problem, read_timeline(problem))
    hours = [figure for figure in part.figures if figure.figure_id == "melting_hours"]
    return hours, [one for one in part.notices if one.notice_id == "melting_too_long"]


def test_four_on_one_stove_by_hand():
    """4 x 2664 kJ at 770 W take 3.84 h, more than 3 h, and two stoves or 3.9 h would settle it."""
    (figure,), (finding,) = said(kitchen())
    assert figure.value == pytest.approx(4 * 2664 / 0.770 / 3600, rel=0.01)
    assert "for 4 people takes 3.8 h on 1 stove of 0.77 kW" in finding.message
    assert "2 stoves at once or 3.9 h a day settle it" in finding.message


def test_a_camp_without_a_chain_has_no_hours():
    """Where a camp's chain is out of its range, nothing is said of melting there."""
    problem = kitchen()
    meals = list(night_meals(problem, read_timeline(problem)))
    assert meals
    part = melting_part(problem, {("kitchen", "camp"): meals}, {})
    assert (part.figures, part.notices) == ((), ())


def test_the_spare_is_kept_out_but_named():
    """With a second stove, the spare, the finding stays and says that it would do."""
    _, (finding,) = said(kitchen(stoves=2))
    assert "on 1 stove" in finding.message
    assert "with the spares burning too it fits" in finding.message


def test_three_stoves_fit():
    """With three stoves, one of them to spare, four people melt in 1.9 h and nothing is found."""
    (figure,), findings = said(kitchen(stoves=3))
    assert figure.value == pytest.approx(4 * 2664 / 1.540 / 3600, rel=0.01)
    assert not findings


@pytest.mark.parametrize(("melting_hours", "count"), [(3.8, 1), (3.9, 0)])
def test_the_time_given_counts(melting_hours, count):
    """With 3.8 h in the evening and morning it does not fit, with 3.9 h it does."""
    _, findings = said(kitchen(melting_hours=melting_hours))
    assert len(findings) == count


def test_power_given_wins_and_gas_is_weaker():
    """A power given is taken; by default gas puts 672 W into the pot, 0.7 of 960 W."""
    (given,), _ = said(kitchen(stove_power_w=1_000.0))
    assert given.value == pytest.approx(4 * 2664 / 3600, rel=0.01)
    gas = replace(WORKED, isobutane_share=0.8, propane_share=0.2, n_butane_share=0.0)
    shares = {name: getattr(gas, name) for name in ("isobutane_share", "propane_share")}
    (figure,), _ = said(kitchen(fuel_kind=FuelKind.CANISTER_GAS, n_butane_share=0.0, **shares))
    assert figure.value == pytest.approx(4 * 2664 / 0.672 / 3600, rel=0.01)


def test_default_power_says_where_it_is_from():
    """The assumed power names single home tests, the wind, and asks to measure."""
    (figure,), _ = said(kitchen())
    (power,) = [one for one in figure.inputs if one.name == "stove_power"]
    assert power.is_default
    assert "wind" in power.source
    assert "measure your own stove" in power.source
