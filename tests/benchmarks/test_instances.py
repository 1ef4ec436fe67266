"""The benchmark expeditions are what they are said to be."""

from __future__ import annotations

import pytest

from solver.checker import check_request
from solver.problem.faults import find_faults
from solver.rulebook import RULES
from tests.benchmarks.glaciers import on_glaciers
from tests.benchmarks.instances import SIZES, Size, expedition


@pytest.mark.parametrize("size", SIZES, ids=lambda size: size.name)
def test_expeditions_have_their_size_and_no_fault(size: Size) -> None:
    """People, days, camps and shared pieces are those of the size, and the question is sound."""
    problem = expedition(size, 1)
    assert find_faults(problem) == ()
    assert len(problem.roster) == size.people
    assert len(problem.calendar.days) == size.days
    assert sum(1 for item in problem.gear if item.owner_id is None) == size.pieces
    slept_at = {visit.places[-1] for day in problem.calendar.days for visit in day.visits}
    assert len(slept_at) == len(size.carries) + 1


@pytest.mark.parametrize("size", SIZES, ids=lambda size: size.name)
def test_expeditions_weigh_what_is_usual(size: Size) -> None:
    """About 22 kg of personal kit, 0.80 to 0.95 kg of food, 0.15 to 0.25 L of fuel a night."""
    for seed in (1, 2, 3):
        problem = expedition(size, seed)
        own_g = sum(item.mass_g for item in problem.gear if item.owner_id is not None)
        assert 21_000 <= own_g / size.people <= 23_000
        low = [s for s in problem.night_sets if s.set_id == "low"]
        assert all(800 <= s.gross_g <= 950 for s in low)
        assert all(150 <= s.fuel_ml <= 250 for s in problem.night_sets)


def test_the_same_seed_gives_the_same_expedition() -> None:
    """An expedition can be made again from its size and seed, and another seed gives another."""
    assert expedition(SIZES[0], 1) == expedition(SIZES[0], 1)
    assert expedition(SIZES[0], 1) != expedition(SIZES[0], 2)


@pytest.mark.parametrize("size", SIZES[:3], ids=lambda size: size.name)
def test_on_glaciers_every_rule_is_asked_and_the_size_stays(size: Size) -> None:
    """People, days, trips and pieces stay, every rule is asked, and the request keeps them all."""
    for seed in (1, 2, 3):
        plain = expedition(size, seed)
        problem = on_glaciers(plain)
        assert find_faults(problem) == ()
        assert all(problem.asks(rule.rule_id) for rule in RULES)
        assert all(problem.rules.kind_of(rule.rule_id) is rule.kind for rule in RULES)
        assert check_request(problem).findings == ()
        assert [p.person_id for p in problem.roster] == [p.person_id for p in plain.roster]
        assert [d.visits for d in problem.calendar.days] == [d.visits for d in plain.calendar.days]
        assert sum(1 for item in problem.gear if item.owner_id is None) == size.pieces
