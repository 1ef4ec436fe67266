"""Kit that each rope team has of its own: when that is so, and how many each has."""

import copy

import pytest

from api_schema.examples import SMALLEST_REQUEST
from api_schema.plan_request import PlanRequest
from service.translate.read.notes import Notes
from service.translate.read.team_kit import kit_by_team, team_of_person, teams_with_kit
from solver.problem import Item, Need, NeedKind


def _asked(**rope):
    """The smallest request with two rope teams, and its rope changed so."""
    wire = copy.deepcopy(SMALLEST_REQUEST)
    for number, person in enumerate(wire["roster"]):
        person["rope_team"] = "first" if number == 0 else "second"
    item = {"item_id": "rope", "mass": "3 kg", "volume": "5 L", "purpose": "rope",
            "needed": "every_trip", **rope}  # fmt: skip
    wire["gear"] = [item]
    return PlanRequest.model_validate(wire)


@pytest.mark.parametrize(
    ("rope", "teams"),
    [
        ({"count": 2}, ("first", "second")),
        ({"count": 3}, ("first", "second")),
        ({"count": 1}, ()),
        ({"count": 2, "rope_team": "first"}, ()),
        ({"count": 2, "purpose": "stove"}, ()),
        ({"count": 2, "needed": "every_night"}, ()),
    ],
)
def test_teams_have_their_own_where_there_is_enough_for_all(rope, teams):
    """Ropes of every trip that are nobody's go to the teams once each can have one; it is noted."""
    request, notes = _asked(**rope), Notes()
    assert teams_with_kit(request, request.gear[0], "/gear/0", notes) == teams
    assert [a.pointer for a in notes.assumptions] == (["/gear/0/rope_team"] if teams else [])


def test_what_is_over_is_anybodys():
    """Of five ropes for two teams each has two of a name of its own, and one stays as it was."""
    rope = Item(
        item_id="rope", name="Rope", mass_g=3000, volume_ml=5000, count=5,
        need=Need(NeedKind.EVERY_TRIP),
    )  # fmt: skip
    shared = list(kit_by_team(rope, ("first", "second"), rope.need.up_to))
    assert [(one.item_id, one.count, one.rope_team_id) for one in shared] == [
        ("rope.first", 2, "first"),
        ("rope.second", 2, "second"),
        ("rope", 1, None),
    ]


def test_a_keeper_keeps_only_what_belongs_to_the_keepers_team():
    """Of a rope for each of two teams the keeper, who is in the second, has that team's."""
    rope = Item(
        item_id="rope", mass_g=3000, volume_ml=5000, count=2, keeper_id="m2",
        need=Need(NeedKind.EVERY_TRIP),
    )  # fmt: skip
    shared = kit_by_team(rope, ("first", "second"), rope.need.up_to, "second")
    assert [one.keeper_id for one in shared] == [None, "m2"]
    assert [team_of_person(person) for person in _asked().roster][:2] == ["first", "second"]
