"""Ranges of the schema, held against the quantities of a part of a request."""

from api_schema.route import PlaceRequest
from service.translate.read.notes import Notes
from service.translate.read.ranges import note_out_of_range


def _faults(**fields):
    notes = Notes()
    place = PlaceRequest.model_validate({"place_id": "camp", "elevation": "2000 m", **fields})
    note_out_of_range(place, notes, "/route/places/0")
    return [(fault.pointer, fault.code) for fault in notes.faults]


def test_a_quantity_in_its_range_is_no_fault():
    """A night of -12 degC at 2000 m is in order."""
    assert _faults(night="-12 degC") == []


def test_a_quantity_out_of_its_range_is_a_fault_at_its_place():
    """A night colder than absolute zero has a fault of its own."""
    assert _faults(night="-300 degC") == [("/route/places/0/night", "out_of_range")]
