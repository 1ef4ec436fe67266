"""What a kitchen burns on a night, for itself and for its guests."""

from dataclasses import replace

from solver.checker.ledger.facts import read_facts
from solver.checker.queries.kitchens import burnt_for
from tests.checker.replaying import burning
from tests.rules.guest_worlds import guest_of
from tests.rules.worlds import person


def test_a_kitchen_burns_for_all_and_its_guests_for_nobody():
    """One person of 100 mL with a guest of 70 mL burns 170 mL, and the guest none."""
    problem = burning(100)
    (group,), (meal,) = problem.cook_groups, problem.night_sets
    both = replace(
        problem,
        roster=(*problem.roster, person("m2", cook_group_id="g2")),
        cook_groups=(group, replace(group, cook_group_id="g2")),
        night_sets=(meal, replace(meal, cook_group_id="g2", fuel_ml=70)),
    )
    facts = read_facts(guest_of(both, "g2"))
    assert [(m.cook_group_id, burnt_for(facts, m)) for m in facts.meals] == [("g1", 170), ("g2", 0)]
    assert facts.burnings["g1"].opened[1].left_ml == {1: 2 * 150 - 170}
    assert facts.burnings["g2"].opened == []
