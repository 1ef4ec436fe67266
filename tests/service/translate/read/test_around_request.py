"""What stands around a request is read without it."""

from api_schema.examples import SMALLEST_CALENDARS
from service.translate.read.around_request import faults_around_request


def test_a_question_in_order_has_no_fault_whatever_its_request_is_like():
    """The request is somebody else's to read."""
    assert faults_around_request(SMALLEST_CALENDARS) == ()
    assert faults_around_request({**SMALLEST_CALENDARS, "request": "none"}) == ()


def test_faults_beside_the_request_are_told():
    """Wrong kinds, unknown names, and what is missing; nothing of the request."""
    found = faults_around_request({"request": {"roster": 1}, "xyz": 1, "seconds": "x"})
    assert {(fault.pointer, fault.code) for fault in found} == {
        ("/days", "missing"),
        ("/xyz", "unknown_field"),
        ("/seconds", "not_a_number"),
    }
