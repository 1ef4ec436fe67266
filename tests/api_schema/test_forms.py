"""Parts of the wire that take two forms are read as the one that was sent."""

from pydantic import TypeAdapter

from api_schema import calendar, roster
from api_schema.calendar import Day, DayRequest
from api_schema.roster import PersonalKit

PIECE = {"item_id": "bag", "mass": "1 kg", "needed": "every_night"}


def test_a_day_is_a_list_of_places_or_an_object():
    """A list stays a list, an object becomes a day request."""
    day = TypeAdapter(Day)
    assert day.validate_python(["road", "camp"]) == ["road", "camp"]
    assert isinstance(day.validate_python({"places": ["road"]}), DayRequest)


def test_a_personal_kit_is_a_name_or_a_list():
    """A text names a kit of the request, a list is the kit itself."""
    kit = TypeAdapter(PersonalKit)
    assert kit.validate_python("light") == "light"
    assert [piece.item_id for piece in kit.validate_python([PIECE])] == ["bag"]


def test_names_of_forms_cannot_be_fields():
    """A tag has a space in it, which no field of the wire has."""
    assert all(" " in tag for tag in calendar.FORM_TAGS | roster.FORM_TAGS)
