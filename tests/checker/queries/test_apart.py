"""Units of one purpose that are all in one pack or sled."""

from solver.checker.queries.apart import all_in_one
from solver.problem import Purpose
from tests.checker.replaying import replay_of
from tests.rules.party_worlds import thing
from tests.rules.worlds import person, world

PEOPLE = (person("m1"), person("m2"))


def _amounts(up, down):
    problem = world(people=PEOPLE, gear=(thing(Purpose.STOVE, item_id="stove", count=3),))
    found = all_in_one(replay_of(problem, up, down), "rule", Purpose.STOVE, "stoves")
    return [finding.amount for finding in found]


def test_all_of_several_in_one_carrier_is_one_too_many():
    """Three of three in one pack are one too many; two of three are not; one alone may ride."""
    assert _amounts({"m1": "stove*3"}, {"m1": "stove*2", "m2": "stove"}) == [1]
    assert _amounts({"m1": "stove"}, {"m2": "stove"}) == []


def test_nothing_of_the_purpose_is_no_finding():
    """A world without stoves has nothing to keep apart."""
    found = all_in_one(replay_of(world(), {}, {}), "rule", Purpose.STOVE, "stoves")
    assert list(found) == []
