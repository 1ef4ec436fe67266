"""What the calendar eats, burns, holds in reserve and leaves: bags, containers, sacks, caches."""

from dataclasses import replace

import pytest

from solver.problem import (
    Conditions,
    Container,
    CookGroup,
    FuelKind,
    Reserve,
    ReserveKind,
    Waste,
    read_timeline,
)
from solver.requirements.cache_stock import cache_stock_ml
from solver.requirements.canisters import blend_is_default, canister_part, gas_left_inside
from solver.requirements.consumption import burn_schedule, night_meals, sacks, trash_apart
from solver.requirements.fuel_cans import FuelNight, container_part
from solver.requirements.provisions import supplies
from solver.requirements.reserves import reserve_nights
from solver.requirements.stove_chain import (
    DEFAULT_BLEND,
    blend_of,
    camp_chain,
    chain_fuel_ml,
    fuel_of,
)
from tests.problem.small_world import small_world
from tests.requirements.snow_world import snow_world, with_conditions

WORLD = small_world()
TIMELINE = read_timeline(WORLD)
MEALS = night_meals(WORLD, TIMELINE)
NORTH = WORLD.cook_groups[0]


def test_every_group_eats_every_night_where_it_sleeps():
    """Two people of two groups eat two bags and burn 400 mL on each of three nights."""
    assert [(m.day, m.place_id, m.cook_group_id) for m in MEALS if m.cook_group_id == "north"] == [
        (1, "camp", "north"),
        (2, "high", "north"),
        (3, "high", "north"),
    ]
    assert len(MEALS) == 6
    assert {(m.people, m.bags, m.fuel_ml) for m in MEALS} == {(2, 2, 400)}


def test_a_margin_raises_what_is_burnt_and_rounds_up():
    """400 mL with 7 % more are 428 mL."""
    meals = night_meals(replace(WORLD, fuel_margin_percent=7), TIMELINE)
    assert {meal.fuel_ml for meal in meals} == {428}


def test_containers_are_drawn_down_in_turn():
    """1200 mL from cans of 1000: the second is opened on night 3, when the first runs dry."""
    burn = burn_schedule(WORLD, NORTH, MEALS)
    assert [(o.day, o.place_id, o.count) for o in burn.openings] == [(1, "camp", 1), (3, "high", 1)]
    assert [(e.number, e.day, e.place_id) for e in burn.empties] == [(1, 3, "high")]
    assert [spell.left_ml for spell in burn.open_spells] == [600, 200, 800]
    assert [spell.mass_g for spell in burn.open_spells] == [570, 290, 710]
    last = burn.open_spells[-1]
    assert (last.number, last.to_day, last.to_place) == (2, None, "road")
    assert burn.shortfall_ml == 0


def test_what_the_containers_lack_is_counted():
    """With one can for 1200 mL, 200 mL are missing."""
    one = replace(NORTH, containers=(replace(NORTH.containers[0], count=1),))
    assert burn_schedule(WORLD, one, MEALS).shortfall_ml == 200


def test_a_stay_leaves_its_trash_on_its_last_night():
    """Four people leave 60 g a night: 240 g of one night at the camp, 480 g of two higher up."""
    made = {sack.unit_id: sack for sack in sacks(WORLD, TIMELINE, MEALS)}
    assert {name: (s.day, s.mass_g, s.volume_ml) for name, s in made.items()} == {
        "trash/camp/1-1": (1, 240, 1_200),
        "trash/high/1-1": (3, 480, 2_400),
    }


def test_human_waste_fills_even_sacks():
    """8 person-nights of 150 g are 1200 g: two sacks of 600 g where a sack takes 1000 g."""
    waste = Waste(waste_g_per_person_night=150, human_waste_sack_g=1_000)
    made = sacks(replace(WORLD, waste=waste), TIMELINE, MEALS)
    assert [s.mass_g for s in made if s.unit_id.startswith("human-waste/high/")] == [600, 600]


def test_each_group_packs_its_own_trash_where_somebody_reacts():
    """With a severe reaction in one of two groups, sacks carry the group and its allergens."""
    first, *rest = WORLD.roster
    careful = replace(WORLD, roster=(replace(first, reacts_to=("nuts",)), *rest))
    assert trash_apart(careful)
    assert not trash_apart(WORLD)
    meals = night_meals(careful, TIMELINE)
    names = [sack.unit_id for sack in sacks(careful, TIMELINE, meals)]
    assert {"trash/camp/north/1-1", "trash/camp/south/1-1"} <= set(names)


@pytest.mark.parametrize(
    ("reserve", "nights"),
    [
        (Reserve("high", "north", ReserveKind.STORM, 2, "low"), [(2, 2), (3, 2)]),
        (Reserve("camp", "north", ReserveKind.DESCENT, 2, "low"), [(1, 2), (2, 2), (3, 2)]),
        (Reserve("road", "north", ReserveKind.BASE_WAIT, 2, "low"), [(1, 2), (2, 2), (3, 2)]),
        (Reserve("high", "north", ReserveKind.EVACUATION, 2, "low", 1), [(2, 1), (3, 1)]),
    ],
)
def test_a_reserve_is_held_on_the_nights_of_its_kind(reserve, nights):
    """Storm and evacuation while people sleep there, descent while beyond, waiting always."""
    held = reserve_nights(replace(WORLD, reserves=(reserve,)), TIMELINE)
    assert [(night.day, night.people) for night in held] == nights
    people = nights[0][1]
    assert {(night.bags, night.fuel_ml) for night in held} == {(2 * people, 400 * people)}


def test_given_counts_are_kept():
    """Ten bags and four cans that the request gives are what is taken."""
    found = supplies(WORLD, TIMELINE)
    assert [count for _, count in found.bags] == [10, 10]
    assert [count for _, count in found.containers] == [4, 4]


def test_counts_not_given_are_use_plus_reserve():
    """North: 6 bags eaten and 4 held, 2 cans opened and 1 held; south only 6 bags and 2 cans."""
    world = replace(
        WORLD,
        night_sets=tuple(replace(s, bag_count=None) for s in WORLD.night_sets),
        cook_groups=tuple(
            replace(g, containers=(replace(g.containers[0], count=None),))
            for g in WORLD.cook_groups
        ),
    )
    found = supplies(world, TIMELINE)
    assert [count for _, count in found.bags] == [10, 6]
    assert [count for _, count in found.containers] == [3, 2]


def test_all_that_is_eaten_beyond_a_cache_may_pass_through_it():
    """Four bags of 2 L, four held of 1.5 L, and bottles of 1.2 L for 902 mL and 704 mL of fuel."""
    world = snow_world()
    fuel_ml = 2 * 451 + 704
    bottles = -(-fuel_ml // 750)
    assert cache_stock_ml(world, read_timeline(world)) == {
        "cache": 4 * 2_000 + 4 * 1_500 + bottles * 1_200
    }


def test_no_cache_has_no_stock():
    """A cache aside, beyond which nobody sleeps and past which nobody goes, is not named."""
    assert cache_stock_ml(WORLD, TIMELINE) == {}


KIND = Container("can", "north", 1_000, 150, 1_100)
GROUP = CookGroup("north", (), (KIND,))


def counts(nights, taken, left_inside=0.0):
    """The containers asked for and the notices."""
    part = container_part(GROUP, nights, {"can": taken}, left_inside)
    needed = [f.value for f in part.figures if f.figure_id == "fuel_containers"]
    return needed, [notice.notice_id for notice in part.notices]


def test_nights_and_each_reserve_take_whole_containers():
    """2500 mL burnt and 800 mL held are three cans and one, the night that asks for most."""
    nights = (FuelNight(1_500.0, (800.0,)), FuelNight(2_500.0, (800.0,)))
    assert counts(nights, 4) == ([4], [])


def test_litres_that_do_not_reach_are_said():
    """3300 mL from three cans of 1000 mL are short."""
    assert counts((FuelNight(2_500.0, (800.0,)),), 3) == ([4], ["fuel_containers_short"])


def test_gas_left_inside_asks_for_more_and_at_last_for_liquid_fuel():
    """With half the gas left inside twice the canisters are needed; with 97 % none are enough."""
    night = (FuelNight(2_000.0, ()),)
    assert counts(night, 9) == ([2], [])
    assert counts(night, 9, 0.5) == ([4], [])
    assert counts(night, 9, 0.97) == ([], ["fuel_containers_not_given"])


def test_the_blend_is_given_or_a_fifth_propane():
    """Shares that add up are the blend, none are the default, others are an error."""
    assert blend_of(Conditions()) == DEFAULT_BLEND
    assert blend_is_default(Conditions())
    given = Conditions(propane_share=0.3, n_butane_share=0.7)
    assert not blend_is_default(given)
    assert blend_of(given).mass_fractions() == (0.3, 0.0, 0.7)
    with pytest.raises(ValueError, match="1"):
        blend_of(Conditions(propane_share=0.5))


def test_the_fuel_is_white_gas_unless_given():
    """Kerosene and gas are themselves; nothing given is white gas."""
    kerosene = fuel_of(Conditions(fuel_kind=FuelKind.KEROSENE))
    assert fuel_of(Conditions()).name != kerosene.name
    assert fuel_of(Conditions()) == fuel_of(Conditions(fuel_kind=FuelKind.WHITE_GAS))


def chain_at(night_c, conditions):
    """What a chain at 4300 m takes."""
    return {
        "elevation_m": 4_300,
        "night_temperature_c": night_c,
        "storm": False,
        "density_g_per_l": 725,
        "conditions": conditions,
        "rules": WORLD.rules,
    }


def test_colder_snow_and_a_worse_stove_burn_more():
    """Each raises the fuel of a night, which is rounded up to whole millilitres."""
    usual = chain_fuel_ml(**chain_at(-10.0, Conditions(stove_efficiency=0.4)))
    assert chain_fuel_ml(**chain_at(-30.0, Conditions(stove_efficiency=0.4))) > usual
    assert chain_fuel_ml(**chain_at(-10.0, Conditions(stove_efficiency=0.3))) > usual
    exact = camp_chain(**chain_at(-10.0, Conditions(stove_efficiency=0.4))).chain.fuel_ml
    assert usual - 1 < exact <= usual


def test_liquid_fuel_leaves_nothing_inside_and_cold_gas_does():
    """A canister at -30 degC keeps more of its gas than one at 5 degC."""
    world = snow_world(conditions=Conditions())
    timeline = read_timeline(world)
    assert gas_left_inside(world, timeline) == 0
    assert canister_part(world, timeline).figures == ()
    cold, warm = (
        with_conditions(world, fuel_kind=FuelKind.CANISTER_GAS, canister_temperature_c=c)
        for c in (-30.0, 5.0)
    )
    assert gas_left_inside(cold, timeline) > gas_left_inside(warm, timeline)
    left = [f for f in canister_part(cold, timeline).figures if f.figure_id == "canister_gas_left"]
    assert [f.value for f in left] == [pytest.approx(100 * gas_left_inside(cold, timeline))]
