"""Items of a request, each reader by itself."""

from typing import Any

from api_schema.gear import ItemRequest
from api_schema.plan_request import PlanRequest
from service.translate.read.gear import read_gear
from service.translate.read.generic_kit import PERSONAL_KIT
from service.translate.read.item_size import need_of, volume_ml
from service.translate.read.item_use import read_use
from service.translate.read.notes import Notes
from service.translate.read.personal_items import personal_items
from service.translate.read.shared_items import shared_items
from solver.problem import Need, NeedKind, Purpose

TENT: dict[str, Any] = {"item_id": "tent", "mass": "4 kg", "volume": "9 L", "needed": "every_night"}


def item(**facts) -> ItemRequest:
    """A tent with what else is given."""
    return ItemRequest.model_validate(TENT | facts)


def request(**parts) -> PlanRequest:
    """One person at the road for a day."""
    return PlanRequest.model_validate(
        {
            "route": {"places": [{"place_id": "road", "elevation": "1 km"}], "legs": []},
            "calendar": [["road"]],
            "roster": [{"person_id": "ann", "pack_cap": "25 kg"}],
        }
        | parts
    )


def test_a_volume_left_out_goes_by_the_mass():
    """Three millilitres a gram, which is told; a given volume is taken as it is."""
    notes = Notes()
    assert volume_ml(None, 500, "/gear/0", notes) == 1_500
    assert volume_ml("2 L", 500, "/gear/0", notes) == 2_000
    assert [(a.pointer, a.value) for a in notes.assumptions] == [("/gear/0/volume", "1.5 L")]


def test_a_need_says_when_and_up_to_where():
    """The need of an item has its kind and the place beyond which it does not go."""
    assert need_of(item(go_ahead=True), "camp") == Need(NeedKind.EVERY_NIGHT, None, "camp", True)


def test_the_use_of_an_item_is_that_of_its_purpose():
    """A shelter has its places; places of something else are a fault, not silence."""
    notes = Notes()
    use = read_use(item(purpose="shelter", shelter_places=3), "/gear/0", notes)
    assert use == {"purpose": Purpose.SHELTER, "shelter_places": 3}
    assert read_use(item(), "/gear/0", notes) == {}
    assert notes.faults == []
    read_use(item(purpose="rope", shelter_places=3), "/gear/0", notes)
    assert [(f.pointer, f.code) for f in notes.faults] == [
        ("/gear/0/shelter_places", "other_purpose")
    ]


def test_parts_and_those_left_on_the_way_are_items_of_their_own():
    """Two tents in two parts, one left at camp, make four items; one part alone is the shelter."""
    parts = [
        {"part_id": "fly", "mass": "2.5 kg", "volume": "5 L"},
        {"part_id": "poles", "mass": "1.5 kg", "volume": "4 L"},
    ]
    found = list(
        shared_items(
            item(parts=parts, count=2, left_at={"camp": 1}, purpose="shelter", shelter_places=3),
            "/gear/0",
            Notes(),
        )
    )
    assert [(i.item_id, i.count, i.need.up_to) for i in found] == [
        ("tent.fly", 1, None),
        ("tent.poles", 1, None),
        ("tent.fly.camp", 1, "camp"),
        ("tent.poles.camp", 1, "camp"),
    ]
    assert [i.purpose for i in found] == [Purpose.SHELTER, None, Purpose.SHELTER, None]


def test_what_is_left_at_a_place_says_where_by_name():
    """Wands to be left at a camp have the camp in their name, so that paper tells them apart."""
    wands = item(mass="45 g", volume="0 L", name="wand", count=3, left_at={"camp": 1})
    assert [(i.name, i.count) for i in shared_items(wands, "/gear/0", Notes())] == [
        ("wand", 2),
        ("wand (for camp)", 1),
    ]


def test_parts_that_differ_from_the_whole_are_a_fault():
    """The mass of an item is that of its parts together."""
    notes = Notes()
    parts = [{"part_id": "fly", "mass": "2.5 kg", "volume": "5 L"}]
    list(shared_items(item(parts=parts), "/gear/0", notes))
    assert [f.code for f in notes.faults] == ["parts_differ_from_whole"]


def test_a_kit_is_generic_listed_or_named():
    """Left out, the generic kit; a list as it is; a name leads to the request's kits."""
    bag = {"item_id": "bag", "mass": "1 kg", "volume": "5 L", "needed": "every_night"}
    asked = request(personal_kits={"light": [bag]})
    people = [
        asked.roster[0],
        asked.roster[0].model_copy(update={"personal_kit": "light"}),
        asked.roster[0].model_copy(update={"personal_kit": "heavy"}),
    ]
    notes = Notes()
    counts = [len(list(personal_items(asked, who, n, notes))) for n, who in enumerate(people)]
    assert counts == [len(PERSONAL_KIT), 1, 0]
    assert [(f.pointer, f.code) for f in notes.faults] == [("/roster/2/personal_kit", "unknown_id")]


def test_gear_is_shared_items_first_and_each_remembers_its_address():
    """A fault of the problem's second item leads to the person whose kit it is from."""
    notes = Notes()
    gear = read_gear(request(gear=[TENT | {"name": "the tent"}]), notes)
    assert [gear[0].unit_id, gear[1].unit_id] == ["tent", "ann/pack"]
    assert notes.names["tent"] == "the tent"
    assert notes.pointer_of(("gear", 0, "mass_g")) == "/gear/0/mass"
    assert notes.pointer_of(("gear", 1)) == "/roster/0/personal_kit"
