"""Ranges of fields: written in the schema, held by the service, and no end of them breaks it."""

import copy
import json
from itertools import chain, islice
from pathlib import Path

import pytest

from api_schema.plan_request import PlanRequest
from service.errors import RequestFaults
from service.translate.read.notes import Notes
from service.translate.read.ranges import note_out_of_range
from service.translate.read.requests import read_plan_request
from solver.rulebook import RULES
from tests.service.one_night_out import REQUEST
from tests.service.sweep_fields import (
    accepted,
    boundaries,
    failures,
    in_full,
    leaves,
    on_record,
    outcome_of,
    sweep,
    with_value,
)
from tests.service.wire_fields import ends, field_at, measured_fields

SCHEMA = json.loads(
    (Path(__file__).parents[4] / "api_schema/openapi.v1.json").read_text(encoding="utf-8")
)["components"]["schemas"]


def open_fuel() -> dict:
    """A request whose fuel is reckoned from snow, with a fuel density and a cap by mode."""
    document = copy.deepcopy(REQUEST)
    document["roster"][0]["pack_caps"] = {"pack_homeward": "110 %"}
    del document["menu"]["night_sets"][0]["fuel"]
    document["fuel"] = {"density": "0.7 kg/L"}
    return document


def faults(document: dict) -> dict[str, str]:
    """Pointer and code of each fault of a request."""
    try:
        read_plan_request(document)
    except RequestFaults as error:
        return {fault.pointer: fault.code for fault in error.faults}
    return {}


@pytest.mark.parametrize(
    ("place", "value"),
    [
        (("route", "places", 1, "night"), "999999999 degC"),
        (("route", "places", 1, "night"), "-273.16 degC"),
        (("route", "places", 1, "night"), "-459.68 degF"),
        (("route", "legs", 0, "hours_outbound"), "0 h"),
        (("route", "legs", 0, "hours_homeward"), "24.1 h"),
        (("sleds", 0, "volume"), "999999999 L"),
        (("roster", 0, "body_mass"), "0 kg"),
        (("gear", 0, "mass"), "0 kg"),
        (("gear", 0, "spoils_below"), "-91 degC"),
        (("menu", "night_sets", 0, "energy_kcal"), 15_001),
        (("menu", "night_sets", 0, "highest"), "20 km"),
        (("fuel", "density"), "0 kg/L"),
        (("roster", 0, "personal_kit", 0, "mass"), "0 g"),
        (("roster", 0, "pack_caps"), {"pack_homeward": "200.1 %"}),
        (("roster", 0, "pack_caps"), {"pack_homeward": "1000.1 kg"}),
    ],
)
def test_what_cannot_be_is_refused_where_it_stands(place, value):
    """A quantity beyond its range is a fault at its own address, and the only one."""
    document = open_fuel()
    told = faults(with_value(document, place, value))
    below = value if isinstance(value, dict) else ()
    assert list(told) == ["/" + "/".join(map(str, (*place, *below)))]
    assert faults(document) == {}


def test_every_quantity_of_a_request_has_a_range_in_the_schema():
    """Each text with a unit says its least and its most."""
    told = 0
    for name, schema in SCHEMA.items():
        if not name.endswith("Request"):
            continue
        for field, its_schema in schema.get("properties", {}).items():
            forms = (its_schema, *its_schema.get("anyOf", ()))
            for form in (*forms, *(part for f in forms for part in f.get("oneOf", ()))):
                if " (?:" in form.get("pattern", ""):
                    told += 1
                    assert {"x-least", "x-most"} <= set(form), f"{name}.{field}"
    assert told > 60


def test_the_ends_of_a_range_are_taken():
    """Least and most of a range are in it: -90 and 60 degC, 1 min and 24 h."""
    for place, least_and_most in (
        (("route", "places", 1, "night"), ("-90 degC", "60 degC", "-130 degF", "140 degF")),
        (("route", "legs", 0, "hours_outbound"), ("1 min", "24 h")),
        (("route", "legs", 0, "steepest_angle"), ("0 deg",)),
        (("roster", 0, "pack_caps", "pack_homeward"), ("200 %", "1000 kg")),
    ):
        for end in least_and_most:
            assert faults(with_value(open_fuel(), place, end)) == {}, end


PUT_IN_BEFORE = {("EntryUse", "version")}
"""What is gone from a request when it is read; `edits/test_library_parts.py` has its ends."""


def test_the_sweep_puts_ends_into_every_number_and_quantity_of_the_schema():
    """The two requests that are swept have all of them, and each setting of a rule."""
    swept = {
        field_at(place)[0] for document in (in_full(), REQUEST) for place, _ in leaves(document)
    }
    assert swept == measured_fields() - PUT_IN_BEFORE
    assert len(swept) > 100
    settings = {setting.name for rule in RULES for setting in rule.settings}
    assert set(in_full()["rules"]["numbers"]) == settings


def test_the_ends_of_a_field_are_those_of_the_schema_with_their_neighbours():
    """A night of -90 to 60 degC, and a body mass of 10 to 300 kg, by the smallest step."""
    assert list(ends(("route", "places", 1, "night"), "0 degC")) == [
        "-90.000001 degC",
        "-90 degC",
        "-89.999999 degC",
        "59.999999 degC",
        "60 degC",
        "60.000001 degC",
    ]
    assert "300.000001 kg" in list(ends(("roster", 0, "body_mass"), "80 kg"))
    assert list(ends(("menu", "night_sets", 0, "sets_per_bag"), 1)) == [0, 1, 2, 49, 50, 51]


def test_a_sweep_of_fields_goes_on_from_its_record(tmp_path):
    """What is on record is not asked again, and a cut-off line is."""
    record = tmp_path / "sweep"
    record.write_text('["full a", "taken"]\n["full b", "fai')
    assert on_record(record) == {"full a": "taken"}
    assert on_record(tmp_path / "none") == {}


def test_no_boundary_of_any_field_breaks_the_service():
    """Each end that can be written is refused, or its needs are stated and its rules asked.

    Here every fifth end by the schema is asked in the request that says everything, and every
    boundary in the small one, each field once; the long form asks all.
    """
    full = with_value(in_full(), ("rules", "numbers"), {})
    asked_of = chain(
        islice(_each_field_once(full, ends), 0, None, 5), _each_field_once(open_fuel(), boundaries)
    )
    failed, asked = failures(asked_of, accepted)
    assert failed == []
    assert asked > 500


def _each_field_once(document, values):
    """The document with other values in each field, at the first place where the field stands."""
    seen = set()
    for place, value in leaves(document):
        field, _ = field_at(place)
        if field not in seen:
            seen.add(field)
            for other in dict.fromkeys(values(place, value)):
                yield f"{place} = {other!r}", with_value(document, place, other)


def test_what_is_taken_never_ends_as_failed():
    """The largest and smallest of each field that is taken is planned or refused with a reason.

    Where fuel is reckoned from snow, the fields are asked that stand there alone.
    """
    told = {place for place, _ in leaves(REQUEST)}
    reckoned = {place for place, _ in leaves(open_fuel())} - told
    assert len(told) > 15
    assert reckoned
    taken = [
        (name, changed)
        for document, places in ((REQUEST, told), (open_fuel(), reckoned))
        for name, changed in sweep(document, places)
        if name.rpartition(" = ")[2].startswith(("'0.000001", "'0 ", "0", "'999", "1000"))
        and accepted(changed)
    ]
    failed, asked = failures(iter(taken), outcome_of)
    assert failed == []
    assert asked > 20


def test_what_has_another_fault_is_told_once():
    """A quantity that is told as wrong already is not told again as out of its range."""
    request = PlanRequest.model_validate(
        with_value(open_fuel(), ("route", "places", 1, "night"), "61 degC")
    )
    notes = Notes()
    note_out_of_range(request, notes)
    assert [fault.pointer for fault in notes.faults] == ["/route/places/1/night"]
    assert "between -90 degC and 60 degC" in notes.faults[0].detail
    note_out_of_range(request, notes)
    assert len(notes.faults) == 1
