"""People, caps and sleds of a request, each reader by itself."""

import pytest

from api_schema.calendar import DayRequest
from api_schema.roster import PersonRequest, SledRequest
from service.translate.read.calendar import read_calendar, start_place_of
from service.translate.read.caps import read_caps, read_load_limit_g
from service.translate.read.notes import Notes
from service.translate.read.roster import read_roster
from service.translate.read.sleds import read_sleds
from service.translate.read.slept_at import places_slept_at
from solver.problem import Direction, LegMode


def person(**facts) -> PersonRequest:
    """Somebody with a pack cap and what else is given."""
    return PersonRequest.model_validate({"person_id": "ann", "pack_cap": "25 kg"} | facts)


def test_a_person_of_few_words_gets_the_defaults():
    """What is left out of a person is taken down once each, and safety facts stay open."""
    notes = Notes()
    (ann,) = read_roster([person()], notes)
    assert (ann.pack_volume_ml, ann.water_g, ann.first_lunch_g) == (85_000, 2_000, 350)
    assert (ann.body_mass_g, ann.flying_mass_g, ann.summit_water_g) == (None, None, None)
    assert [a.pointer.rpartition("/")[2] for a in notes.assumptions] == [
        "pack_volume",
        "water",
        "first_lunch",
        "rope_team",
        "cook_group",
    ]


def test_what_is_carried_rounds_up_and_what_can_be_carried_rounds_down():
    """Half a gram more water is a gram more, half a gram more cap is none."""
    (ann,) = read_roster([person(water="1000.5 mL", pack_cap="25000.5 g")], Notes())
    assert (ann.water_g, ann.caps.pack_g) == (1_001, 25_000)


def test_caps_by_leg_stand_beside_the_pack_cap():
    """A cap of one mode and direction is kept with both."""
    caps = read_caps(person(pack_caps={"fixed_rope_outbound": "20 kg"}), 0, Notes())
    assert caps.pack_by_leg == ((LegMode.FIXED_ROPE, Direction.OUTBOUND, 20_000),)
    assert caps.pack_on(LegMode.FIXED_ROPE, Direction.OUTBOUND) == 20_000
    assert caps.total_g is None


def test_a_hauler_gets_a_total_cap():
    """With a sled cap the total is both caps, and never over 68 kg."""
    totals = [
        read_caps(person(sled_cap=cap), 0, Notes()).total_g for cap in ("40 kg", "43 kg", "60 kg")
    ]
    assert totals == [65_000, 68_000, 68_000]


@pytest.mark.parametrize(
    ("facts", "pointer"),
    [
        ({"load_limit": "10 kg"}, "/p/load_limit_reason"),
        ({"load_limit_reason": "a sore knee"}, "/p/load_limit"),
    ],
)
def test_a_load_limit_and_its_reason_go_together(facts, pointer):
    """One without the other is a fault at the one that is missing."""
    notes = Notes()
    read_load_limit_g(person(**facts), "/p", notes)
    assert [(f.pointer, f.code) for f in notes.faults] == [(pointer, "missing")]


def test_who_has_a_sled_cap_hauls_a_generic_sled():
    """Without sleds in the request each hauler gets one, whose limit is at least their cap."""
    people = read_roster([person(sled_cap="50 kg"), person(person_id="bo")], Notes())
    (sled,) = read_sleds(None, people, Notes())
    assert (sled.hauler_id, sled.tare_g, sled.mass_limit_g) == ("ann", 4_000, 50_000)


def test_two_haulers_share_by_half_unless_told():
    """The second hauler's share is 50 % by default, which is told, and else as given."""
    notes = Notes()
    told = {"sled_id": "s", "hauler": "ann", "second_hauler": "bo"}
    wire = [
        SledRequest.model_validate(told),
        SledRequest.model_validate(told | {"second_share": "30 %"}),
    ]
    assert [s.second_share_percent for s in read_sleds(wire, (), notes)] == [50, 30]
    assert [a.value for a in notes.assumptions if a.pointer.endswith("second_share")] == ["50 %"]


def test_rope_teams_with_the_same_places_make_one_visit():
    """A day by rope teams has a visit for each way, and its start is the first team's place."""
    day = DayRequest.model_validate(
        {"teams": {"a": ["road", "camp"], "b": ["road", "camp"], "c": ["road"]}, "start": "06:30"}
    )
    calendar = read_calendar([day], ("a", "b", "c"), Notes())
    assert [v.rope_team_ids for v in calendar.days[0].visits] == [("a", "b"), ("c",)]
    assert calendar.days[0].start_hour == 6.5
    assert start_place_of([day]) == "road"


def test_a_cook_group_sleeps_where_its_first_member_does():
    """Each place of a night stands once, in the order in which it is first slept at."""
    people = read_roster([person()], Notes())
    days = [["road", "camp"], ["camp"], ["camp", "high"], ["high", "road"]]
    calendar = read_calendar(days, ("team",), Notes())
    assert places_slept_at(people, calendar) == {"all": ("camp", "high")}


def test_a_cap_by_mode_may_be_a_share_of_the_pack_cap():
    """One changed pack cap changes every cap that is given as a share of it, rounded down."""
    shares = {"fixed_rope_outbound": "93.3 %", "pack_homeward": "120 %", "summit_outbound": "24 kg"}
    for pack_cap, rope_g, homeward_g in (("30 kg", 27_990, 36_000), ("27 kg", 25_191, 32_400)):
        caps = read_caps(person(pack_cap=pack_cap, pack_caps=shares), 0, Notes())
        assert caps.pack_on(LegMode.FIXED_ROPE, Direction.OUTBOUND) == rope_g
        assert caps.pack_on(LegMode.PACK, Direction.HOMEWARD) == homeward_g
        assert caps.pack_on(LegMode.SUMMIT, Direction.OUTBOUND) == 24_000
