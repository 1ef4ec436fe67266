"""What an answer says of somebody who goes down, where they cannot and where nobody stays."""

from types import SimpleNamespace

from service.translate.write.evacuation import write_evacuation
from service.translate.write.evacuation_words import NOT_ALONE, evacuation_words, reasons
from solver.outcome import Conflict, Infeasible, Solved, SolveRecord
from solver.plan import Plan
from solver.rest.fetched import UntilFetched
from solver.rest.hurt import Evacuation, How, Hurt
from solver.rest.result import Rest
from solver.rest.two_parties import HurtLimit
from solver.rest.way_down import Haul
from tests.problem.small_world import small_world

READ = SimpleNamespace(names={})
RECORD = SolveRecord("none", 0, 0, ())
REFUSED = Rest(
    small_world(), Infeasible((Conflict("pack_cap_held", "the pack is too heavy."),), RECORD)
)


def _evacuation(how=How.WALKS, *, haul=None, down=REFUSED, staying=("c",), outside=(), **more):
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
        next_day=5,
        **more,
    )


def _wait(*with_them, others_go_on):
    things = (("c1", "stove", 1), ("c1", "tent", 2))
    return UntilFetched(with_them, 2, things, ("1 more communicator",), others_go_on)


def _load(person_id, total_kg):
    return SimpleNamespace(person_id=person_id, total_kg=total_kg)


def _trip(day, *loads):
    return SimpleNamespace(day=day, from_="c1", to="strip", loads=list(loads))


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


def test_everybody_waits_and_nobody_leaves_before_the_aircraft():
    """Who waits, what stays there, what is missing, and from when the others have a plan."""
    wait = _wait("b", "c", others_go_on=False)
    told = write_evacuation(READ, _evacuation(How.FLIES, down=None, until_fetched=wait), None)
    assert told.say[0] == (
        "a waits at c1 to be fetched. b and c wait there too: nobody leaves c1 before a has been "
        "fetched."
    )
    assert told.say[1] == "This stays at c1 for 2 nights of waiting: stove (1), tent (2)."
    assert told.say[2].startswith("Once a has been fetched, c can go on.")
    assert "with day 5 as their first" in told.say[2]
    assert told.waits_with == ["b", "c"]
    assert [(one.unit_id, one.count) for one in told.stays_until_fetched] == [
        ("stove", 1),
        ("tent", 2),
    ]
    assert told.missing == ["1 more communicator"]
    assert (told.not_held, told.load_limit_kg) == ([], None)


def test_companions_who_fly_too_let_the_others_go_on():
    """They wait with the person; the others do not."""
    wait = _wait("b", others_go_on=True)
    found = _evacuation(How.FLIES, down=None, until_fetched=wait)
    said = list(evacuation_words(found, [], None))
    assert said[0] == "a waits at c1 to be fetched. b waits there too and leaves with them."
    assert "c can stay and go on. This answer has their plan." in said


def test_nobody_who_is_hurt_is_left_alone_unsaid():
    """Where nobody waits, the answer asks to send somebody."""
    wait = _wait(others_go_on=True)
    said = list(evacuation_words(_evacuation(How.FLIES, until_fetched=wait), [], None))
    assert "is alone there" in said[0]
    assert "send somebody to them" in said[0]


def test_those_without_a_plan_are_told_to_send_the_whole_calendar():
    """From day 1, and from which day on the way down begins."""
    said = " ".join(evacuation_words(_evacuation(), [], REFUSED))
    assert (
        "c cannot go on as planned. Send `calendar`, the whole one from day 1, with their way down "
        "from day 5 on, or name everybody in `companions`." in said
    )
    assert list(reasons(REFUSED)) == ["the pack is too heavy."]


def test_the_load_that_is_told_is_the_largest_of_the_day():
    """Of two trips on the first day, the second has the larger load; a later day does not count."""
    solved = Rest(small_world(), Solved(Plan((), ()), (), None, RECORD, ()))
    trips = [
        _trip(5, _load("a", 8.0), _load("b", 20.0)),
        _trip(5, _load("b", 21.5)),
        _trip(6, _load("b", 30.0)),
    ]
    haul = Haul(19_500, (), 0)
    found = _evacuation(How.HAULED, haul=haul, down=solved)
    said = next(evacuation_words(found, trips, None))
    assert "on day 5: c1 to strip. The heaviest load of that day is 21.5 kg in pack" in said
    assert "Each of those who haul also pulls 19.5 kg of the litter." in said


def test_the_limit_of_the_hurt_person_is_told_with_its_reason():
    """A given limit and that of the rule are not taken for each other."""
    limit = HurtLimit(11_500, "the given limit; without it, the rule says 8 kg")
    told = write_evacuation(READ, _evacuation(limit=limit), None)
    assert "a carries at most 11.5 kg: the given limit; without it, the rule says 8 kg." in told.say
    assert (told.load_limit_kg, told.load_limit_why) == (11.5, limit.why)


def test_where_nobody_stays_that_is_said():
    """What is not taken is left behind."""
    told = write_evacuation(READ, _evacuation(staying=()), None)
    assert "Nobody stays. What they do not take is left behind." in told.say


def test_nobody_hurt_needs_no_physician():
    """A party that divides is not sent to the rescue services."""
    told = write_evacuation(READ, _evacuation(How.NOT_HURT), None)
    assert NOT_ALONE not in told.say
