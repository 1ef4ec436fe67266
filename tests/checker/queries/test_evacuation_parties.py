"""Who could take somebody ill down while the others stay."""

from solver.checker.ledger.facts import read_facts
from solver.checker.queries.evacuation_parties import PartySearch
from tests.rules.evacuation_worlds import GUIDED_SIX, SIX, camp


def _search(people, least):
    return PartySearch(read_facts(camp(people)), people[0], least)


def test_the_fewest_companions_leave_and_the_ill_persons_rope_first():
    """With parties of three the two rope-mates of the ill go along, the other rope stays."""
    found = _search(SIX, 3).best(list(SIX[1:]))
    assert found is not None
    leaving, staying = ([person.person_id for person in people] for people in found)
    assert leaving == ["m1", "m2", "m3"]
    assert staying == ["m4", "m5", "m6"]


def test_both_parties_of_a_guided_trip_have_a_guide():
    """An ill client leaves with the own guide and rope-mate; the other guide stays."""
    ill, others = GUIDED_SIX[1], [p for p in GUIDED_SIX if p is not GUIDED_SIX[1]]
    found = PartySearch(read_facts(camp(GUIDED_SIX)), ill, 3).best(others)
    assert found is not None
    assert [[p.person_id for p in people] for people in found] == [
        ["c-1", "guide-1", "c-2"],
        ["guide-2", "c-3", "c-4"],
    ]


def test_too_few_people_are_told_with_how_many_more():
    """Of five people, parties of three lack one; of six none."""
    search = _search(SIX[:5], 3)
    assert search.best(list(SIX[1:5])) is None
    assert search.people_missing(list(SIX[1:5])) == "1 person more"
