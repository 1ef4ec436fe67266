"""Menu, fuel, reserves and waste of a request, each reader by itself."""

from dataclasses import replace
from typing import Any

import pytest

from api_schema.fuel import FuelRequest
from api_schema.menu import MenuRequest
from api_schema.plan_request import PlanRequest
from api_schema.reserves import WasteRequest
from service.translate.read.eaten import say_what_is_eaten
from service.translate.read.fuel import read_cook_groups, read_fuel_figures
from service.translate.read.generic_menu import generic_menu
from service.translate.read.menu import read_menu
from service.translate.read.night_fuel import Camps, with_open_fuel
from service.translate.read.night_sets import read_night_set
from service.translate.read.notes import Notes
from service.translate.read.reserves import read_reserves
from service.translate.read.waste import read_waste
from solver.problem import Caps, Conditions, NightSet, Person, Place, ReserveKind, RuleSettings

MEAL: dict[str, Any] = {
    "set_id": "meal",
    "mass": "900 g",
    "packaging": "60 g",
    "lunch": "300 g",
    "volume": "2 L",
}
PLACES = (Place("camp", 2500), Place("high", 4500))
SLEPT = {"all": ("camp", "high")}


def menu(*sets: dict[str, Any], **parts) -> MenuRequest:
    """A menu of these night sets."""
    return MenuRequest.model_validate({"night_sets": list(sets)} | parts)


def request(**parts) -> PlanRequest:
    """One person, road and camp."""
    return PlanRequest.model_validate(
        {
            "route": {
                "places": [
                    {"place_id": "road", "elevation": "1 km"},
                    {"place_id": "camp", "elevation": "2 km", "storm_nights": 2},
                ],
                "legs": [],
            },
            "calendar": [["road"]],
            "roster": [{"person_id": "ann", "pack_cap": "25 kg"}],
        }
        | parts
    )


def test_a_night_set_is_read_for_one_cook_group():
    """Masses come onto the grid, and a fuel left out is nought until it is reckoned."""
    found = read_night_set(menu(MEAL).night_sets[0], "all", "/menu/night_sets/0", Notes())
    assert (found.unit_id, found.gross_g, found.volume_ml) == ("all/meal", 900, 2_000)
    assert found.fuel_ml == 0


def test_bands_choose_the_set_of_each_place():
    """Two sets that meet at 3000 m are used below and above it, and both fuels are open."""
    low, high = (
        MEAL | {"below_elevation": "3000 m"},
        MEAL | {"set_id": "high", "from_elevation": "3000 m"},
    )
    sets, used, open_fuel = read_menu(menu(low, high), SLEPT, PLACES, Notes(), rules=RuleSettings())
    assert [s.set_id for s in sets] == ["meal", "high"]
    assert used == {"all": {"camp": "meal", "high": "high"}}
    assert set(open_fuel) == {("all", "meal"), ("all", "high")}


@pytest.mark.parametrize(
    ("sets", "code"),
    [
        ((MEAL | {"below_elevation": "3000 m"},), "no_night_set"),
        ((MEAL, MEAL | {"set_id": "other"}), "several_night_sets"),
    ],
)
def test_a_place_without_exactly_one_set_is_a_fault(sets, code):
    """Each place needs one set, not none and not two."""
    notes = Notes()
    read_menu(menu(*sets), SLEPT, PLACES, notes, rules=RuleSettings())
    assert code in {f.code for f in notes.faults}


def test_the_generic_menu_has_the_bands_that_are_slept_in():
    """At 2500 and 4500 m these are low and high, and the storm set is always there."""
    notes = Notes()
    sets, used, _ = generic_menu(SLEPT, {"camp": 2500, "high": 4500}, notes, RuleSettings())
    assert [s.set_id for s in sets] == ["low", "high", "storm"]
    assert used == {"all": {"camp": "low", "high": "high"}}
    assert len(notes.assumptions) == 6


def test_somebody_careful_wants_to_know_what_is_eaten():
    """A set whose contents are not said is a fault where somebody must avoid something."""
    ann = Person("ann", Caps(pack_g=1), 1, "team", "all", avoids=("peanut",))
    for contains, count in ((None, 1), (["milk"], 0)):
        notes = Notes()
        said = MEAL if contains is None else MEAL | {"contains": contains}
        say_what_is_eaten(menu(said), [ann], notes)
        assert [f.code for f in notes.faults] == ["contents_not_said"] * count


def test_without_containers_there_are_bottles_for_each_cook_group():
    """The generic bottle holds 750 mL, and there are as many as needed."""
    notes = Notes()
    groups = read_cook_groups(FuelRequest(), {"a": {}, "b": {}}, notes)
    assert [(g.cook_group_id, g.containers[0].content_ml) for g in groups] == [
        ("a", 750),
        ("b", 750),
    ]
    assert {a.value for a in notes.assumptions} == {"750 mL, 190 g, 1.2 L"}


def test_density_and_margin_are_given_or_told():
    """What is given is taken silently, what is not is a default that is told."""
    notes = Notes()
    given = FuelRequest.model_validate({"density": "0.8 kg/L", "margin": "20 %"})
    assert read_fuel_figures(given, notes) == (800, 20)
    assert notes.assumptions == []
    assert read_fuel_figures(FuelRequest(), notes) == (700, 12)
    assert [a.value for a in notes.assumptions] == ["0.7 kg/L", "12 %"]


def test_an_open_fuel_is_that_of_the_camp_that_takes_most():
    """Used at both camps, a set burns more than at either alone or as much; a given one stays."""
    night_set = NightSet("meal", "all", 900, 60, 300, 2_000, 0)

    def fuel_ml(*places: str) -> int:
        camps = Camps(PLACES, SLEPT, {"all": dict.fromkeys(places, "meal")}, ())
        (found,) = with_open_fuel(
            (night_set,),
            {("all", "meal"): "/menu"},
            camps,
            density_g_per_l=700,
            conditions=Conditions(),
            rules=RuleSettings(),
            notes=Notes(),
        )
        return found.fuel_ml

    assert fuel_ml("camp", "high") == max(fuel_ml("camp"), fuel_ml("high")) > 0
    given = replace(night_set, fuel_ml=123)
    camps = Camps(PLACES, SLEPT, {"all": {"camp": "meal"}}, ())
    kept = with_open_fuel(
        (given,),
        {},
        camps,
        density_g_per_l=700,
        conditions=Conditions(),
        rules=RuleSettings(),
        notes=Notes(),
    )
    assert kept == (given,)


def test_storm_nights_and_reserves_are_held_by_those_who_sleep_there():
    """Storm nights of a place and a reserve on top each name their set and their holders."""
    asked = request(reserves=[{"place": "camp", "kind": "storm", "nights": 1, "set_id": "dry"}])
    held = read_reserves(asked, (), {"all": {"camp": "meal"}}, {"all": ("camp",)}, Notes())
    assert [(r.kind, r.nights, r.set_id) for r in held] == [
        (ReserveKind.STORM, 2, "meal"),
        (ReserveKind.STORM, 1, "dry"),
    ]


def test_a_reserve_without_any_set_is_a_fault_where_it_stands():
    """Where neither a storm set nor one of the place is known, the set must be named."""
    notes = Notes()
    assert read_reserves(request(), (), {}, {"all": ("camp",)}, notes) == ()
    assert [(f.pointer, f.code) for f in notes.faults] == [
        ("/route/places/1/storm_nights", "no_night_set")
    ]


def test_waste_is_given_or_told():
    """A density becomes room a gram, rounded up; what is left out is told figure by figure."""
    notes = Notes()
    wire = WasteRequest.model_validate({"trash_density": "0.3 kg/L", "trash_sack": "3 kg"})
    waste = read_waste(wire, notes)
    assert (waste.trash_ml_per_g, waste.human_waste_ml_per_g) == (4, 2)
    assert (waste.trash_sack_g, waste.human_waste_sack_g) == (3_000, 4_000)
    assert [a.value for a in notes.assumptions] == ["185 g", "4 kg", "0.5 kg/L"]
