"""The loads that energy is counted with, before anything is planned: shares of the caps."""

from __future__ import annotations

from dataclasses import replace

import pytest

from solver.problem import Calendar, Day, Sled, Visit
from solver.requirements.energy import energy
from tests.requirements.test_energy import HAULING, said
from tests.requirements.walking_world import PHYSIQUE, defaults, only_figure, part_of


def test_way_back_of_carry_is_light():
    """On a carry the pack is 80 % of its cap of 31.25 kg out and 30 % of it back, sled empty."""
    carry = Day((Visit(("north",), ("road", "camp", "road")),))
    stay = Day((Visit(("north",), ("road",)),))
    problem = replace(HAULING.problem(), calendar=Calendar((carry, stay)))
    figure = only_figure(part_of(energy, problem), "walking_energy", day=1)
    shown = defaults(figure)
    assert (shown["pack_load_step_1"], shown["pack_load_step_2"]) == (25.0, 9.375)
    assert (shown["sled_mass_step_1"], shown["sled_mass_step_2"]) == (40.0, 4.0)


def test_a_load_limit_is_the_cap_of_a_planned_load():
    """Limited to 10 kg somebody is taken to carry 80 % of that, and to haul the empty sled."""
    problem = HAULING.problem()
    weak = (replace(problem.roster[0], load_limit_g=10_000, load_limit_reason="knee"),)
    limited = replace(problem, roster=weak)
    shown = defaults(only_figure(part_of(energy, limited), "walking_energy", day=1))
    assert (shown["pack_load_step_1"], shown["sled_mass_step_1"]) == (8.0, 4.0)


def test_leg_factor_lightens_sled():
    """On a leg where half the sled's 50 kg may be hauled it is planned with 80 % of 25 kg."""
    walk = replace(HAULING, leg=replace(HAULING.leg, sled_factor_outbound_percent=50))
    shown = defaults(only_figure(said(walk), "sled_energy", day=1))
    assert shown["sled_mass_step_1"] == 20.0


def test_total_cap_lightens_sled():
    """Where pack and sled may be 55 kg together, 25 kg on the back leave 30 kg for the sled."""
    problem = HAULING.problem()
    (person,) = problem.roster
    person = replace(person, caps=replace(person.caps, total_g=55_000))
    part = part_of(energy, replace(problem, roster=(person,)))
    shown = defaults(only_figure(part, "sled_energy", day=1))
    assert shown["sled_mass_step_1"] == 30.0


def test_two_haulers_share_a_sled():
    """A sled with two haulers at 60 and 40 % costs the first 60 % of its pull alone."""
    problem = HAULING.problem()
    (ann,) = problem.roster
    bob = replace(ann, person_id="bob")
    sled = Sled("sled", "ann", 4_000, 50_000, 120_000, "bob", 40)
    conditions = replace(
        problem.conditions, physiques=(PHYSIQUE, replace(PHYSIQUE, person_id="bob"))
    )
    both = replace(problem, roster=(ann, bob), sleds=(sled,), conditions=conditions)
    part = part_of(energy, both)
    alone = only_figure(said(), "sled_energy", day=1).value
    for person_id, share in (("ann", 0.6), ("bob", 0.4)):
        pulled = only_figure(part, "sled_energy", day=1, person_id=person_id).value
        assert pulled == pytest.approx(share * alone)
