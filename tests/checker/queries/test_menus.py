"""Which night sets are eaten and held where."""

from solver.checker.ledger.facts import read_facts
from solver.checker.queries.menus import different_sets, sets_eaten, sets_used
from tests.rules.food_worlds import fed, held


def test_a_set_is_told_once_for_each_place_with_its_nights():
    """Two nights at c1 and one at c2 are two uses of one set."""
    facts = read_facts(fed("strip-c1 c1 c1-c2 c2-c1-strip"))
    uses = sets_eaten(facts)
    assert [(use.place.place_id, use.days) for use in uses] == [("c1", (1, 2)), ("c2", (3,))]
    assert [s.set_id for s in different_sets(uses)] == ["meal"]
    assert uses[0].words == "night set meal of cook group g1 at c1"
    assert uses[0].where == (("cook_group", "g1"), ("set", "meal"), ("place", "c1"))


def test_a_reserve_is_used_though_not_eaten():
    """The set of a reserve is told without nights, and only where it is not eaten."""
    facts = read_facts(held(fed()))
    used = [(use.night_set.set_id, use.days) for use in sets_used(facts)]
    assert used == [("meal", (1,)), ("spare", ())]
