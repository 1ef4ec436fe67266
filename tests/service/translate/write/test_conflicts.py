"""Why there is no plan, as the wire has it: pointers, people, trips and remedies."""

import copy

from api_schema.examples import SMALLEST_REQUEST
from service.translate.read.requests import read_plan_request
from service.translate.write.conflicts import write_conflict
from solver.outcome import Conflict, Remedy, RemedyKind
from tests.service.wire import wire


def _written(conflict: Conflict):
    return wire(write_conflict(conflict, read_plan_request(copy.deepcopy(SMALLEST_REQUEST))))


def test_a_conflict_about_a_person_points_at_the_cap_and_names_the_trip():
    """A pack that is too heavy points into the roster at its carrier, with trip and amount."""
    person_id = SMALLEST_REQUEST["roster"][1]["person_id"]
    written = _written(
        Conflict(
            "total_cap_held",
            "too much",
            (Remedy(RemedyKind.OTHER, "less"),),
            amount=800,
            unit="g",
            where=(
                ("person", person_id),
                ("day", 2),
                ("step", 1),
                ("from_place", "a"),
                ("to_place", "b"),
            ),
        )
    )
    assert written["pointer"].startswith("/roster/1")
    assert (written["person_id"], written["amount"], written["unit"]) == (person_id, 800, "g")
    assert written["trip"] == {"day": 2, "step": 1, "from": "a", "to": "b"}
    assert [(one["text"], one["is_decision"]) for one in written["remedies"]] == [("less", False)]


def test_a_conflict_about_nothing_named_has_no_person_and_no_trip():
    """Without a place the fields are null, not guessed."""
    written = _written(Conflict("kit_listed", "no stove", ()))
    assert (written["person_id"], written["trip"], written["night"]) == (None, None, None)
