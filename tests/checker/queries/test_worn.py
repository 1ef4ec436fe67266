"""What people wear, for sure and at most."""

from solver.checker.queries.worn import purpose_worn_by, worn_among, worn_by
from solver.problem import Purpose
from tests.checker.replaying import facts_of
from tests.rules.party_worlds import THREE, WORN, thing


def test_of_unowned_worn_things_those_elsewhere_may_wear_theirs():
    """Of three units for three people two are for sure on two of them, one on one."""
    radio = thing(Purpose.COMMUNICATOR, WORN, count=3)
    facts = facts_of(people=THREE, gear=(radio,))
    assert [worn_among(facts, radio, people) for people in (("m1",), ("m1", "m2"))] == [1, 2]
    assert worn_among(facts, thing(Purpose.COMMUNICATOR, WORN), ("m1", "m2")) == 0


def test_an_owners_worn_things_are_where_the_owner_is():
    """All units of an owner are on the owner and on nobody else."""
    own = thing(Purpose.COMMUNICATOR, WORN, owner_id="m1", count=2)
    facts = facts_of(people=THREE, gear=(own,))
    assert worn_among(facts, own, ("m1", "m3")) == 2
    assert worn_among(facts, own, ("m2", "m3")) == 0
    assert worn_by(facts, own, ("m2", "m3")) == 0


def test_at_most_all_units_are_on_somebody_whose_they_may_be():
    """An unowned worn thing counts in full for anybody; one in a pack not at all."""
    shared = thing(Purpose.COMMUNICATOR, WORN, count=2)
    packed = thing(Purpose.COMMUNICATOR, item_id="packed", count=5)
    facts = facts_of(people=THREE, gear=(shared, packed))
    assert worn_by(facts, shared, ("m3",)) == 2
    assert purpose_worn_by(facts, Purpose.COMMUNICATOR, ("m3",)) == 2
    assert purpose_worn_by(facts, Purpose.STOVE, ("m3",)) == 0
