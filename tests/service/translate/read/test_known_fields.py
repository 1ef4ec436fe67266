"""What a caller is advised to write in place of a field that does not exist."""

import copy

import pytest

from api_schema.edited_plan import EditedPlan
from api_schema.examples import SMALLEST_REQUEST
from api_schema.plan_request import PlanRequest
from service.errors import RequestFaults
from service.translate.read.known_fields import advice
from service.translate.read.near_names import LONGEST_NAME
from service.translate.read.requests import read_plan_request


@pytest.mark.parametrize(
    ("location", "text"),
    [
        (("referense",), "Did you mean reference?"),
        (("route", "legs", 0, "hours_up"), "Did you mean hours_outbound?"),
        (
            ("roster", 2, "pack_caps", "pack_up"),
            "Did you mean pack_outbound?",
        ),
        (("rules", "as_caution"), "Fields here are numbers, off, pack_volume_allowance, waivers."),
        (("rules", "waivers", 0, "rule"), "Did you mean rule_id?"),
        (("calendar", 0, "day object", "turnround"), "Did you mean turn_round?"),
        (("gear", 0, "qqq"), "Check its spelling against the published schema."),
        (("x" * (LONGEST_NAME + 1),), "Check its spelling against the published schema."),
    ],
)
def test_an_unknown_field_gets_advice(location, text):
    """Near names of that object are named, else the few that it has, else the schema."""
    assert advice(PlanRequest, location) == text


def test_an_edited_plan_has_fields_of_its_own():
    """The advice is about the document that was sent."""
    assert advice(EditedPlan, ("trips", 0, "loads", 0, "person")) == "Did you mean person_id?"


def test_thousands_of_unknown_fields_are_refused_quickly_with_advice_for_the_first():
    """Only as many names are compared as an answer lists."""
    document = copy.deepcopy(SMALLEST_REQUEST) | {f"referenc{number}": 1 for number in range(3000)}
    with pytest.raises(RequestFaults) as caught:
        read_plan_request(document)
    details = [fault.detail for fault in caught.value.faults]
    assert details[:50] == ["There is no such field. Did you mean reference?"] * 50
    assert details[50:] == ["There is no such field."] * 2950
