"""What all readers share: words, mending, faults of the wire; and the small readers."""

import pytest
from pydantic import ValidationError

from api_schema.conditions import ConditionsRequest
from api_schema.edited_plan import EditedPlan
from api_schema.examples import SMALLEST_REQUEST
from api_schema.plan_request import OptionsRequest, PlanRequest
from api_schema.rules import RulesRequest
from service.translate.read import words
from service.translate.read.conditions import read_conditions
from service.translate.read.edited_plan import PlanReader
from service.translate.read.mending import faults_behind
from service.translate.read.notes import Notes
from service.translate.read.options import STANDARD_GAP, read_options
from service.translate.read.requests import read_plan_request
from service.translate.read.rules import read_rules
from service.translate.read.wire_faults import pointer_of, wire_faults
from service.translate.read.wire_names import WIRE_FIELDS
from solver.checker.ledger.facts import read_facts


def error_of(document: dict) -> ValidationError:
    """What Pydantic says of a request."""
    with pytest.raises(ValidationError) as raised:
        PlanRequest.model_validate(document)
    return raised.value


@pytest.mark.parametrize(
    ("in_words", "value", "text"),
    [
        (words.grams, 350, "350 g"),
        (words.kilograms, 68_000, "68 kg"),
        (words.kilograms, 4_250, "4.25 kg"),
        (words.litres, 85_000, "85 L"),
        (words.millilitres, 750, "750 mL"),
        (words.percent, 12, "12 %"),
        (words.density, 700, "0.7 kg/L"),
        (words.density_of_room, 5, "0.2 kg/L"),
    ],
)
def test_figures_in_words_have_their_unit(in_words, value, text):
    """Each kind of figure is written as a request would have it, without needless digits."""
    assert in_words(value) == text


def test_the_pointer_of_an_error_leaves_out_the_form_that_was_tried():
    """The names of forms are no part of a JSON Pointer; marks in names are escaped."""
    assert pointer_of(("calendar", 0, "day object", "teams", "a/b")) == "/calendar/0/teams/a~1b"


def test_faults_of_the_wire_are_in_our_words():
    """Each fault has its pointer and stable code, and repeats nothing of the request."""
    error = error_of({**SMALLEST_REQUEST, "titel": "secret"})
    (fault,) = wire_faults(error, PlanRequest)
    assert (fault.pointer, fault.code) == ("/titel", "unknown_field")
    assert fault.detail == "There is no such field. Did you mean title?"


def test_faults_behind_those_of_the_wire_are_found_in_a_mended_copy():
    """A cap without a unit is mended, and what the parts have against it is told as well."""
    document = {**SMALLEST_REQUEST, "options": {"time_limit": 5}}

    def read(request: PlanRequest) -> Notes:
        notes = Notes()
        notes.fault("/roster/0", "seen", f"{request.options.time_limit}")
        notes.fault("/options/time_limit", "of_the_mending", "")
        return notes

    (fault,) = faults_behind(document, error_of(document), read)
    assert (fault.pointer, fault.code) == ("/roster/0", "seen")
    assert document["options"] == {"time_limit": 5}


def test_options_set_the_limits_of_the_search():
    """Only a racing solve lets the clock decide; a time out of range is a fault."""
    notes = Notes()
    wire = OptionsRequest.model_validate({"time_limit": "20 s", "racing": True, "workers": 4})
    limits, seconds = read_options(wire, notes)
    assert (limits.wall_seconds, limits.workers, limits.gap, seconds) == (20, 4, STANDARD_GAP, 20)
    standard, no_time = read_options(OptionsRequest(), notes)
    assert (limits.racing, standard.racing, no_time) == (True, False, None)
    read_options(OptionsRequest.model_validate({"time_limit": "2 h"}), notes)
    assert [f.pointer for f in notes.faults] == ["/options/time_limit"]


def test_conditions_left_out_stay_open():
    """Nothing given is None throughout; a share comes in as a fraction."""
    nothing = read_conditions(ConditionsRequest(), (), Notes())
    assert (nothing.fuel_kind, nothing.stove_efficiency, nothing.wind_kmh) == (None, None, None)
    told = ConditionsRequest.model_validate({"stove_efficiency": "35 %", "wind": "10 m/s"})
    read = read_conditions(told, (), Notes())
    assert (read.stove_efficiency, read.wind_kmh) == (0.35, 36)


def test_rules_that_are_changed_are_told():
    """An allowance left out is a default; a rule that nobody knows is a fault."""
    notes = Notes()
    assert read_rules(RulesRequest(), notes).pack_volume_allowance_percent == 10
    assert [a.value for a in notes.assumptions] == ["10 %"]
    read_rules(RulesRequest.model_validate({"off": ["no_such_rule"]}), notes)
    assert [f.pointer for f in notes.faults] == ["/rules/off/0"]


def test_an_edited_plan_takes_sizes_from_the_request():
    """A unit of the request needs no mass; one that the request does not settle needs both."""
    read = read_plan_request(SMALLEST_REQUEST)
    faults = []
    edited = EditedPlan.model_validate(
        {
            "trips": [
                {
                    "day": 1,
                    "step": 1,
                    "from": "road",
                    "to": "camp-1",
                    "loads": [
                        {
                            "person_id": "lead",
                            "pack": [
                                {"unit_id": "tent", "count": 1},
                                {"unit_id": "rope", "count": 0},
                                {"unit_id": "trash/camp-1/1-1", "count": 1},
                            ],
                        }
                    ],
                }
            ]
        }
    )
    plan = PlanReader(read_facts(read.problem, read.timeline), faults).plan(edited)
    tent, sack = plan.trips[0].loads[0].pack
    assert (tent.mass_g, tent.volume_ml) == (3_900, 9_000)
    assert (sack.mass_g > 0, sack.volume_ml > 0) == (True, True)
    assert faults == []


def test_names_of_the_wire_lead_from_the_grid_to_the_request():
    """A fault of a field on the grid is told at the field of the request."""
    notes = Notes()
    notes.point(("roster", 0), "/roster/0")
    assert notes.pointer_of(("roster", 0, "caps", "pack_g")) == f"/roster/0/{WIRE_FIELDS['pack_g']}"
