"""Lists and tables for people, each by itself."""

from api_schema.plan_request import PlanRequest
from api_schema.quantities import DIMENSIONS
from service.reports.limits import request_limit_entries
from service.reports.loads import loads_table
from service.reports.manifest import manifest_table
from service.reports.rules import not_rule_entries, rule_entries, rules_page
from service.reports.stock import stock_table
from service.reports.units import dimension_entries
from service.translate.read.requests import read_plan_request
from service.translate.write.outcomes import write_outcome
from solver.rulebook import RULES
from solver.rulebook.not_rules import NOT_RULES
from tests.service.one_night_out import REQUEST, SOLVED
from tests.service.wire import wire


def outcome() -> dict:
    """The answer to one night out."""
    return wire(write_outcome(SOLVED, read_plan_request(REQUEST)))


def test_the_lines_of_a_load_add_up_to_its_gross_mass():
    """Units, water, lunch and the sled itself are lines, and together they are pack and sled."""
    answer = outcome()
    rows = loads_table(answer).as_rows()
    load = answer["plan"]["trips"][0]["loads"][0]
    for where, kg in (("pack", load["pack_kg"]), (load["sled_id"], load["sled_kg"])):
        lines = [row["kg"] for row in rows if row["day"] == 1 and row["carried_in"] == where]
        assert round(sum(lines), 3) == kg
    assert {"water", "lunch", "sled"} <= {row["unit_id"] for row in rows}


def test_things_in_use_are_in_no_pack_and_on_no_sled():
    """A rope in use is a line of the person who has it, with 0 kg and `in_use`.

    Water of 0 kg is in the pack all the same: it is no thing that anybody uses.
    """
    answer = outcome()
    load = answer["plan"]["trips"][0]["loads"][0]
    load["pack"].append(load["pack"][0] | {"unit_id": "rope", "each_kg": 0.0, "each_l": 0.0})
    load["sled"].append(load["pack"][0] | {"unit_id": "harness", "each_kg": 0.0, "each_l": 0.0})
    load["water_kg"] = 0.0
    rows = {row["unit_id"]: row for row in loads_table(answer).as_rows() if row["day"] == 1}
    for unit_id in ("rope", "harness"):
        assert (rows[unit_id]["carried_in"], rows[unit_id]["kg"]) == ("in_use", 0.0)
        assert rows[unit_id]["person_id"] == load["person_id"]
    assert rows["water"]["carried_in"] == "pack"


def test_the_stock_has_a_line_for_each_kind_of_unit():
    """The lines of a night weigh what stands there."""
    answer = outcome()
    rows = stock_table(answer).as_rows()
    for night in answer["plan"]["stock"]:
        lines = [
            row["kg"]
            for row in rows
            if (row["day"], row["place"]) == (night["day"], night["place"])
        ]
        assert round(sum(lines), 3) == night["kg"]


def test_the_manifest_has_people_and_cargo():
    """A line a person and a kind of unit, whose masses are those of the flight."""
    unit = {"unit_id": "tent", "name": "the tent", "count": 2, "each_kg": 2.0, "each_l": 5.0}
    flight = {
        "flight_id": "in-1",
        "direction": "fly_in",
        "payload_kg": 450.0,
        "seats": 4,
        "fuel_aboard": False,
        "people": [{"person_id": "ann", "kg": 90.0}],
        "units": [unit],
    }
    rows = manifest_table({"plan": {"flights": [flight]}}).as_rows()
    assert [(row["what"], row["id"], row["kg"]) for row in rows] == [
        ("person", "ann", 90.0),
        ("cargo", "tent", 4.0),
    ]
    assert manifest_table(outcome()).as_rows() == []


def test_limits_are_those_of_the_schema():
    """Each list of a request that has a most is named with it."""
    limits = {entry.limit_id: entry.value for entry in request_limit_entries()}
    assert limits["roster"] == PlanRequest.model_json_schema()["properties"]["roster"]["maxItems"]
    assert "route.places" in limits


def test_units_have_a_factor_unless_their_scale_is_shifted():
    """A pound is so many grams; degrees Fahrenheit have no factor."""
    entries = dimension_entries()
    assert [entry.dimension for entry in entries] == [d.name for d in DIMENSIONS]
    units = {unit.unit: unit for entry in entries for unit in entry.units}
    assert (units["lb"].factor, units["lb"].base_unit) == ("453.59237", "g")
    assert units["degF"].factor is None


def test_every_rule_is_listed_and_on_the_page():
    """The list has the rulebook's rules in order, and the page each of their ids."""
    page = rules_page()
    assert [entry.rule_id for entry in rule_entries()] == [rule.rule_id for rule in RULES]
    assert all(f'id="{rule.rule_id}"' in page for rule in RULES)
    assert len(not_rule_entries()) == len(NOT_RULES)
