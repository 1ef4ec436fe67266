"""What an answer says of somebody who goes down, where they cannot and where nobody stays."""

from types import SimpleNamespace

from service.translate.write.evacuation import NOT_ALONE, write_evacuation
from solver.outcome import Conflict, Infeasible, SolveRecord
from solver.rest.hurt import Evacuation, How, Hurt
from solver.rest.result import Rest
from solver.rest.way_down import Haul
from tests.problem.small_world import small_world

READ = SimpleNamespace(names={})
REFUSED = Rest(
    small_world(),
    Infeasible(
        (Conflict("pack_cap_held", "the pack is too heavy."),), SolveRecord("none", 0, 0, ())
    ),
)


def _evacuation(how=How.WALKS, *, haul=None, down=REFUSED, staying=("c",), outside=()):
    return Evacuation(
        Hurt("a", how),
        "c1",
        ("a", "b"),
        staying,
        (("c1", "rope", 1),),
        (),
        (),
        outside,
        haul,
        down,
        ("s1",),
    )


def test_a_party_that_cannot_get_down_is_told_why_and_whom_to_call():
    """The first conflict, what help would bring, and that people on the spot decide."""
    told = write_evacuation(READ, _evacuation(outside=("a stove",)), None)
    assert not told.possible
    assert told.say[0] == (
        "a cannot be brought down with b by your own means: the pack is too heavy."
    )
    assert told.say[1] == "Help from outside would need to bring: a stove."
    assert told.say[-1] == NOT_ALONE
    assert (told.conflicts, told.trips) == (["the pack is too heavy."], [])
    assert [(one.place, one.unit_id, one.count) for one in told.takes] == [("c1", "rope", 1)]
    assert told.sleds_left == ["s1"]


def test_a_leg_without_a_sled_is_the_reason_before_loads():
    """Where the litter cannot go, that is said first, with what each would pull."""
    haul = Haul(30_000, ("c1 to strip: no sled can go there",), 0)
    told = write_evacuation(READ, _evacuation(How.HAULED, haul=haul), None)
    assert "no sled can go there" in told.say[0]
    assert told.each_hauler_pulls_kg == 30


def test_who_is_fetched_waits_and_who_stays_is_told_where_they_cannot():
    """No trips of theirs; the others have no plan and are told what to send."""
    told = write_evacuation(READ, _evacuation(How.FLIES, down=None), REFUSED)
    assert told.say[0] == "a waits at c1 to be fetched with b."
    assert "c cannot go on as planned" in told.say[1]
    assert told.not_held == []


def test_where_nobody_stays_that_is_said():
    """What is not taken is left behind."""
    told = write_evacuation(READ, _evacuation(staying=()), None)
    assert "Nobody stays. What they do not take is left behind." in told.say


def test_nobody_hurt_needs_no_physician():
    """A party that divides is not sent to the rescue services."""
    told = write_evacuation(READ, _evacuation(How.NOT_HURT), None)
    assert NOT_ALONE not in told.say
