"""States that messages say, and the answers, without a service."""

from types import SimpleNamespace

import pytest

from api_schema.replan import ReplanRequest
from service.errors import RequestFaults
from service.messages.numbers import Numbers
from service.messages.states import answer_message, in_words, state_of
from service.messages.text import Group, Message
from tests.problem.small_world import small_world

NUMBERS = Numbers(small_world())
WHEN = Group("when", {"day": 2, "moment": "E"})


def _said(*groups: Group) -> dict:
    return state_of(Message(is_answer=False, plan_code="7Q4M", groups=(WHEN, *groups)), NUMBERS)


def test_numbers_are_names_in_order():
    """Places, people, sleds and night sets are counted from 1 in the order of the request."""
    world = small_world()
    assert NUMBERS.places == tuple(place.place_id for place in world.route.places)
    assert NUMBERS.people == tuple(person.person_id for person in world.roster)
    group = NUMBERS.cook_groups[0]
    assert NUMBERS.night_sets(group)[0].startswith(f"{group}/")


def test_stock_belongs_to_the_place_before_it():
    """Night sets become a count of bags and fuel an amount, at the place of the last group C."""
    group, place = NUMBERS.cook_groups[0], NUMBERS.places[1]
    state = _said(
        Group("place", {"place": 2}),
        Group("night_sets", {"kind": 1, "sets": 4}),
        Group("fuel", {"decilitres": 95}),
    )
    unit_id = NUMBERS.night_sets(group)[0]
    per_bag = next(s.sets_per_bag for s in small_world().night_sets if s.unit_id == unit_id)
    assert state["counts"] == [{"place": place, "unit_id": unit_id, "count": 4 // per_bag}]
    assert state["fuel_left"] == [{"cook_group": group, "place": place, "amount": "9.5 L"}]
    read = ReplanRequest.model_validate(state)
    assert in_words(read)[0] == "Counted on day 2, in the evening."
    assert f"{place}: 9.5 L of fuel of {group}." in in_words(read)


@pytest.mark.parametrize(
    ("groups", "says"),
    [
        ((Group("fuel", {"decilitres": 1}),), "need a place before them"),
        ((Group("place", {"place": 77}),), "There is no place 77"),
        ((Group("load_limit", {"person": 88, "kg": 8}),), "There is no person 88"),
        ((Group("hurt", {"person": 1, "how": "W"}),), "say what they may carry"),
        (
            tuple(Group("hurt", {"person": n, "how": "F"}) for n in (1, 2)),
            "evacuation of one person only",
        ),
    ],
)
def test_what_cannot_be_is_refused(groups, says):
    """A number without a name, stock without a place, somebody hurt without a limit."""
    with pytest.raises(RequestFaults) as refused:
        _said(*groups)
    assert any(says in fault.detail for fault in refused.value.faults)


def test_without_a_day_nothing_is_read():
    """A state says when it was counted."""
    message = Message(is_answer=False, plan_code="7Q4M", groups=())
    with pytest.raises(RequestFaults, match="1 faults"):
        state_of(message, NUMBERS)


def test_an_answer_repeats_the_day_and_says_what_is_known():
    """Nights to wait, last days, where to sleep next and the heaviest load, rounded up."""
    state = ReplanRequest.model_validate({"at": {"day": 2, "moment": "evening"}})
    wait = {"day": 2, "place": NUMBERS.places[1], "within_plan": {"nights": 3}}
    rest = {
        "waits": [wait],
        "last_turn_day": 5,
        "last_summit_day": None,
        "next_move": {"to": NUMBERS.places[0], "load_kg": 24.3},
        "unchanged": False,
    }
    message = answer_message("ABCD", state, rest, "solved", NUMBERS)
    said = {group.name: group.values for group in message.groups}
    assert said["nights_to_wait"] == {"nights": 3}
    assert said["turn_day"] == {"day": 5}
    assert said["summit_day"] == {"day": 0}
    assert (said["sleep_next"], said["heaviest_load"]) == ({"place": 1}, {"kg": 25})
    assert said["plan"] == {"outcome": "R"}
    assert SimpleNamespace(**said["when"]).day == 2


@pytest.mark.parametrize(("kind", "letter"), [("infeasible", "N"), ("failed", "X"), (None, "X")])
def test_without_a_plan_the_answer_says_so(kind, letter):
    """N where no plan keeps the rules, X where that is not settled."""
    state = ReplanRequest.model_validate({"at": {"day": 2, "moment": "morning"}})
    message = answer_message("ABCD", state, None, kind, NUMBERS)
    assert message.groups[-1] == Group("plan", {"outcome": letter})
