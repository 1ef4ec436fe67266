"""What is left within reach once a pack or sled is gone."""

from solver.checker.queries.holdings import pieces
from solver.checker.queries.losses import (
    loss_finding,
    members_in_reach,
    nights_left,
    nights_within,
    people_in_reach,
    within_reach,
    worst_loss,
)
from solver.problem import Purpose
from tests.checker.replaying import replay_of
from tests.rules.party_worlds import thing
from tests.rules.worlds import person, world

PEOPLE = (person("m1"), person("m2"))
STOVES = (thing(Purpose.STOVE, item_id="stove", count=2),)


def _up(loads, days="strip-c1 c1-strip"):
    replayed = replay_of(world(days, people=PEOPLE, gear=STOVES), *loads)
    return replayed, replayed.records[0]


def test_the_worst_loss_leaves_least():
    """Both stoves in one pack: its loss leaves none of the one that is needed."""
    replayed, record = _up([{"m1": "stove*2"}, {}])
    loss = worst_loss(replayed, record, pieces(replayed.facts, Purpose.STOVE), 1)
    assert loss is not None
    assert (loss.carrier.name, loss.left, loss.missing) == ("pack of m1", 0, 1)
    finding = loss_finding("rule", record, loss, words="no stove is left", unit="units")
    assert (finding.amount, finding.where[-1]) == (1, ("person", "m1"))


def test_apart_no_loss_leaves_too_few():
    """With a stove in each pack one is left whichever is lost, and what stands below counts."""
    replayed, record = _up([{"m1": "stove", "m2": "stove"}, {}])
    worth = pieces(replayed.facts, Purpose.STOVE)
    assert worst_loss(replayed, record, worth, 1) is None
    below, its = _up([{"m1": "stove"}, {}])
    assert worst_loss(below, its, worth, 1) is None


def test_reach_is_what_the_partys_day_leads_past():
    """Strip and c1 on day 1; both people are there, and one night is left."""
    replayed, record = _up([{}, {}])
    trip = record.trip
    assert within_reach(replayed, trip) == ("strip", "c1")
    assert people_in_reach(replayed, trip) == {"m1", "m2"}
    assert members_in_reach(replayed, trip, replayed.facts.problem.cook_groups[0]) == 2
    assert nights_left(replayed, trip) == 1
    assert [nights_within(replayed, trip, hours) for hours in (0, 24, 25)] == [0, 1, 1]
