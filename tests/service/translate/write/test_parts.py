"""The parts of an answer, each writer by itself."""

import datetime as dt
from dataclasses import replace

import pytest

from api_schema.check_answer import PeakAnswer
from service.translate.read.requests import ReadRequest, read_plan_request
from service.translate.write import choices
from service.translate.write.cautions import CAUTIONS, cautions_for
from service.translate.write.common import common_part, write_assumptions
from service.translate.write.flights import write_flight
from service.translate.write.keepers import write_keepers
from service.translate.write.load_figures import figures_of, peak_of, share_of_cap
from service.translate.write.plan import write_plan
from service.translate.write.stock import StockWriter
from service.translate.write.stowed import StowedWriter, volume_ml
from service.translate.write.trips import write_trip
from service.translate.write.unit_labels import UnitLabels, write_units
from service.translate.write.units import kilograms, litres, share
from service.translate.write.verdict import write_check, write_peak
from solver.plan import (
    Elsewhere,
    ElsewhereReason,
    Finding,
    FlightLoad,
    Keeper,
    Remark,
    Stowed,
)
from solver.problem import Caps, Direction, Flight, FlightDirection, LegMode
from solver.rulebook import RuleKind
from tests.service.one_night_out import BAG, CAN, MEAL, OPEN_CAN, PLAN, REQUEST, TRASH


@pytest.fixture
def read() -> ReadRequest:
    """One night out."""
    return read_plan_request(REQUEST)


def test_grams_and_fractions_are_exact_on_the_wire():
    """Three decimals of a kilogram or litre are exact grams and millilitres, four of a share."""
    assert (kilograms(1), litres(1_234), share(8_731)) == (0.001, 1.234, 0.8731)


@pytest.mark.parametrize(
    ("load_g", "cap_g", "fraction"),
    [(0, 0, 0), (1, 0, 20_000), (0, 5, 0), (1, 3, 3_334), (5, 5, 10_000), (6, 5, 12_000)],
)
def test_a_load_on_no_cap_counts_as_loaded_twice_over(load_g, cap_g, fraction):
    """A share of a cap rounds up; nothing on nothing is nothing."""
    assert share_of_cap(load_g=load_g, cap_g=cap_g) == fraction


def test_the_figures_of_a_load_name_the_cap_that_binds(read):
    """Pack, sled and both are compared, and a cap of zero is twice over for each of them."""
    trip, load = read.timeline.trips[0], PLAN.trips[0].loads[0]
    figures = figures_of(read.problem, trip, load)
    assert figures.pack_g == 1_500 + 1_000 + 300
    (person,) = read.problem.roster
    shares = {
        "pack": share_of_cap(load_g=figures.pack_g, cap_g=figures.pack_cap_g),
        "sled": share_of_cap(load_g=figures.sled_g, cap_g=figures.sled_cap_g),
        "total": share_of_cap(load_g=figures.pack_g + figures.sled_g, cap_g=person.caps.total_g),
    }
    assert (figures.fraction, shares[figures.binding]) == (max(shares.values()),) * 2
    weak = replace(read.problem, roster=(replace(person, caps=Caps(pack_g=0)),))
    assert figures_of(weak, trip, load).fraction == 20_000


def test_the_peak_is_the_heaviest_load_of_somebody_known(read):
    """A load of a stranger is passed over; without loads there is no peak."""
    peak = peak_of(read.problem, read.timeline, PLAN)
    assert peak is not None
    assert isinstance(write_peak(read, PLAN), PeakAnswer)
    assert write_peak(read, replace(PLAN, trips=())) is None


def test_a_flight_without_payload_is_told_all_the_same(read):
    """Cargo on a flight that lifts nothing counts as loaded twice over, like any other load."""
    flight = Flight("in-1", FlightDirection.FLY_IN, 0, 0, None, None, None)
    problem = replace(read.problem, flights=(flight,))
    answer = write_flight(problem, FlightLoad("in-1", (), (MEAL, CAN)), StowedWriter({}))
    assert (answer.load_fraction, answer.cargo_kg, answer.fuel_aboard) == (2.0, 1.85, True)
    empty = write_flight(problem, FlightLoad("in-1", (), ()), StowedWriter({}))
    assert (empty.load_fraction, empty.fuel_aboard) == (0.0, False)


def test_units_have_the_names_of_the_request_or_say_what_they_are():
    """A name given, an open container of a named one, a sack, an empty sled; else none."""
    writer = StowedWriter({"all/can": "red can"})
    units = (CAN, OPEN_CAN, TRASH, Stowed("sled/red", 1, 1, 0), BAG)
    names = [answer.name for answer in writer.all(units)]
    assert names == ["red can", "red can, open", "trash sack", "sled, empty", None]
    assert volume_ml((MEAL, replace(CAN, count=2))) == 2_000 + 2 * 1_100


def test_the_same_units_are_written_once():
    """What stands unchanged on two nights is one object in memory."""
    writer = StowedWriter({})
    assert writer.all([BAG])[0] is writer.all([replace(BAG)])[0]


def test_a_trip_has_its_loads(read):
    """Party, way, date and everybody's loads are told."""
    answer = write_trip(read, read.timeline.trips[0], PLAN.trips[0], StowedWriter(read.names))
    assert (answer.from_, answer.to, answer.mode, answer.direction) == (
        "road",
        "camp",
        "sled",
        "outbound",
    )
    assert answer.date == dt.date(2028, 2, 28)
    assert [load.total_kg for load in answer.loads] == [
        round(load.pack_kg + load.sled_kg, 3) for load in answer.loads
    ]


def test_stock_says_how_long_it_lasts(read):
    """Before the night there is food and fuel for one and more; after it no food is left."""
    writer = StockWriter(read, StowedWriter(read.names))
    start, camp, _ = (writer.stock(entry) for entry in PLAN.stock)
    assert [(g.nights_of_food, g.night_sets) for g in start.cook_groups] == [(1.0, 1)]
    assert [(g.nights_of_food, g.fuel_ml) for g in camp.cook_groups] == [(0.0, 780)]
    (used,) = writer.used()
    assert (used.place, used.people, used.fuel_ml) == ("camp", 1, 220)


def test_a_plan_begins_and_ends_with_what_stands_at_the_start(read):
    """What is taken along and what comes down is the stock of the first and the last day."""
    document = write_plan(read, PLAN)
    assert [unit.unit_id for unit in document.taken_along] == [
        unit.unit_id for unit in PLAN.stock[0].units
    ]
    assert [unit.unit_id for unit in document.comes_down] == [
        unit.unit_id for unit in PLAN.stock[-1].units
    ]
    assert [day.day for day in document.days] == [1, 2]


def test_a_check_passes_without_findings_whatever_it_remarks(read):
    """A finding fails the check, a remark does not, and both are told in full."""
    finding = Finding("pack_cap_held", "Too much.", 5, "g", (("day", 1),), ("less",))
    remark = Remark(RuleKind.ADVISORY, finding, "seen")
    assert write_check(read.problem, (), (remark,)).passed
    failed = write_check(read.problem, (finding,), ())
    assert (failed.passed, failed.findings[0].where) == (False, {"day": 1})


def test_every_choice_of_the_solver_has_its_name_on_the_wire():
    """No mode, direction or kind of remark is without a name, and the names are the values."""
    assert {mode: mode.value for mode in LegMode} == choices.MODES
    assert {way: way.value for way in Direction} == choices.DIRECTIONS
    assert {way: way.value for way in FlightDirection} == choices.FLIGHT_DIRECTIONS
    assert set(choices.REMARK_KINDS) == set(RuleKind) - {RuleKind.HARD}


def test_the_common_part_repeats_what_was_assumed(read):
    """Each assumption and each caution that concerns the request stands once."""
    common = common_part(read)
    assert common["assumptions"] == write_assumptions(read)
    assert len(common["assumptions"]) == len(read.assumptions) > 0
    assert [c.caution_id for c in common["cautions"]] == [
        caution.caution_id for caution in cautions_for(read.problem, read.names)
    ]


def test_cautions_have_ids_of_their_own():
    """No caution stands twice."""
    assert len({caution.caution_id for caution in CAUTIONS}) == len(CAUTIONS)


def test_every_unit_of_a_plan_has_a_name_for_print():
    """Each unit id of the small plan says its kind and what to call it, whole, open or empty."""
    read = read_plan_request(REQUEST)
    told = {unit.unit_id: unit for unit in write_units(read.problem, PLAN, read.names)}
    assert {unit_id: (unit.label, unit.kind) for unit_id, unit in told.items()} == {
        "solo/bag": ("bag of solo", "gear"),
        "rope": ("glacier rope", "gear"),
        "all/meal": ("night set meal", "food"),
        "all/can": ("can", "fuel"),
        "all/can/open-1": ("can, open", "fuel"),
        "trash/camp/1-1": ("trash sack", "waste"),
    }
    assert (told["all/can"].fuel_ml, told["all/can/open-1"].fuel_ml) == (1_000, None)
    assert (told["all/meal"].night_sets, told["solo/bag"].owner) == (1, "solo")
    assert UnitLabels(read.problem, read.names).of("sled/red").label == "red, empty"


def test_keepers_are_told_with_name_count_and_exceptions(read):
    """The rope's keeper is who the plan says; whoever else has it stands with the reason."""
    away = Elsewhere(2, 1, "camp", "road", "other", 1, ElsewhereReason.LOAD)
    (told,) = write_keepers(read, (Keeper("rope", "solo", False, 1, 2, 2, (away,)),))
    assert (told.name, told.count, told.person_id, told.trips) == ("glacier rope", 1, "solo", 2)
    assert [(one.person_id, one.from_, one.reason) for one in told.elsewhere] == [
        ("other", "camp", "load")
    ]
