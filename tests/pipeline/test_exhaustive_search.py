"""The exhaustive search itself, on worlds small enough to be worked out on paper."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

from solver.problem import (
    Calendar,
    Caps,
    Container,
    CookGroup,
    Day,
    Item,
    Leg,
    LegMode,
    Need,
    NeedKind,
    NightSet,
    Person,
    Place,
    Problem,
    Reserve,
    ReserveKind,
    Route,
    Sled,
    Visit,
    Waste,
)
from tests.pipeline.exhaustive import least_peak

NIGHTLY = Need(NeedKind.EVERY_NIGHT)


def world(days: str, *, caps_g: tuple[int, int] = (1000, 1000), **parts) -> Problem:
    """Two people on a route of letters, with no food, fuel or water unless `parts` says so."""
    letters = sorted(set(days) - {" "})
    mode = parts.pop("mode", LegMode.PACK)
    factor = parts.pop("factor", 100)
    legs = tuple(Leg(f"{a}{b}", a, b, mode, factor, factor) for a, b in pairwise(letters))
    slept = dict.fromkeys(day[-1] for day in days.split()[:-1])
    night_set = NightSet("set", "g", 0, 0, 0, 0, 0)
    problem = Problem(
        route=Route(tuple(Place(p, 1000) for p in letters), legs),
        calendar=Calendar(tuple(Day((Visit(("r",), tuple(day)),)) for day in days.split())),
        roster=tuple(
            Person(f"p{n}", Caps(pack_g=cap_g), 100_000, "r", "g")
            for n, cap_g in enumerate(caps_g, start=1)
        ),
        cook_groups=(CookGroup("g", tuple((place, "set") for place in slept)),),
        night_sets=(night_set,),
    )
    return replace(problem, **parts)


def things(*masses_g: int, need: Need = NIGHTLY, **more) -> tuple[Item, ...]:
    """Shared items of these masses [g]."""
    return tuple(Item(f"i{n}", g, 0, need, **more) for n, g in enumerate(masses_g))


def test_four_items_split_evenly_over_two_packs():
    """600 + 300 and 500 + 400 g fill two packs of 1000 g to nine tenths, both ways."""
    assert least_peak(world("ab ba", gear=things(600, 500, 400, 300))) == 9000


def test_no_plan_when_no_split_fits():
    """1800 g do not fit in two packs of 890 g, though they fit in two of 900 g."""
    gear = things(600, 500, 400, 300)
    assert least_peak(world("ab ba", caps_g=(890, 890), gear=gear)) is None
    assert least_peak(world("ab ba", caps_g=(900, 900), gear=gear)) == 10_000


def test_a_relay_both_ways_leaves_the_heaviest_item_as_the_peak():
    """Two trips of two people have four packs for four items: the largest is 600 of 1000 g."""
    assert least_peak(world("abab baba", gear=things(600, 500, 400, 300))) == 6000


def test_a_carry_up_does_not_help_a_single_way_down():
    """Everything comes down in one trip, 900 g a pack, however it went up."""
    assert least_peak(world("aba ab ba", gear=things(600, 500, 400, 300))) == 9000


def test_food_is_eaten_and_leaves_lunch_and_trash():
    """Up: a bag of 600 g each, 6000. Down: 200 g lunch each, and one has 160 g of trash."""
    food = NightSet("set", "g", 600, 80, 200, 0, 0)
    assert least_peak(world("ab ba", night_sets=(food,))) == 6000
    heavy = replace(food, lunch_g=500)
    assert least_peak(world("ab ba", night_sets=(heavy,))) == 6600


def test_a_bag_of_two_sets_is_not_divided():
    """One bag of 1200 g does not fit a pack of 1000 g, two bags of 600 g do."""
    food = NightSet("set", "g", 600, 0, 0, 0, 0, sets_per_bag=2)
    assert least_peak(world("ab ba", night_sets=(food,))) is None


def test_a_storm_reserve_goes_up_and_comes_down_unused():
    """Four bags of 300 g go up, two a pack; two unused come down.  A carry leaves one each."""
    food = NightSet("set", "g", 300, 0, 0, 0, 0)
    kept = (Reserve("b", "g", ReserveKind.STORM, 1, "set"),)
    assert least_peak(world("ab ba", night_sets=(food,), reserves=kept)) == 6000
    assert least_peak(world("abab ba", night_sets=(food,), reserves=kept)) == 3000


def test_an_open_container_weighs_what_is_left_in_it():
    """The full can of 100 + 300 × 0.7 = 310 g goes up; 100 mL and the can, 170 g, come down."""
    food = NightSet("set", "g", 0, 0, 0, 0, 100)
    can = Container("can", "g", 300, 100, 0)
    groups = (CookGroup("g", (("b", "set"),), (can,)),)
    fuelled = world("ab ba", night_sets=(food,), cook_groups=groups)
    assert least_peak(fuelled) == 3100
    # Up: two bags of 450 g, one beside the can: 760 g; down: lunches of 400 g, one beside 170 g.
    with_food = replace(food, gross_g=450, lunch_g=400)
    assert least_peak(replace(fuelled, night_sets=(with_food,))) == 7600


def test_fuel_spread_puts_two_containers_in_two_packs():
    """Two full cans of 310 g: the weak one with 400 g of cap must take one, 310 of 400 g."""
    food = NightSet("set", "g", 0, 0, 0, 0, 200)
    can = Container("can", "g", 300, 100, 0)
    groups = (CookGroup("g", (("b", "set"),), (can,)),)
    problem = world("ab ba", caps_g=(4000, 400), night_sets=(food,), cook_groups=groups)
    assert least_peak(problem) == 7750


def test_two_of_a_kind_are_kept_apart():
    """Two shelters of 300 g, caps 1000 and 400 g: the weak one must take one, 7500."""
    shelters = things(300, 300, apart_kind="shelter")
    assert least_peak(world("ab ba", caps_g=(1000, 400), gear=shelters)) == 7500
    assert least_peak(world("ab ba", caps_g=(1000, 400), gear=things(300, 300))) == 6000


def test_personal_things_stay_with_their_owner():
    """500 g of the weak one's own in a pack of 600 g are 8334; shared, the strong one has 5000."""
    own = things(500, owner_id="p2")
    assert least_peak(world("ab ba", caps_g=(1000, 600), gear=own)) == 8334
    assert least_peak(world("ab ba", caps_g=(1000, 600), gear=things(500))) == 5000


def test_a_sled_takes_its_hauling_factor_of_its_cap():
    """Sled cap 1000 × 80 % = 800 g, tare 100 g; 300 g on it are 400 of 800, 5000.

    The other 300 g are in the hauler's pack of 600 g, 5000 too; the second person has a cap
    of nothing and carries nothing.
    """
    problem = world("ab ba", mode=LegMode.SLED, factor=80, gear=things(300, 300))
    hauler = replace(problem.roster[0], caps=Caps(pack_g=600, sled_g=1000))
    idle = replace(problem.roster[1], caps=Caps(pack_g=0))
    sled = Sled("s", "p1", 100, 2000, 100_000)
    problem = replace(problem, roster=(hauler, idle), sleds=(sled,))
    assert least_peak(problem) == 5000
    # In all 100 + 600 g under a total cap of 1000 g are 7000.
    total = replace(hauler, caps=Caps(pack_g=600, sled_g=1000, total_g=1000))
    assert least_peak(replace(problem, roster=(total, idle))) == 7000
    # The sled's own limit of 400 g × 80 % = 320 g leaves 220 g of room: nothing fits on it.
    assert least_peak(replace(problem, sleds=(replace(sled, mass_limit_g=400),))) == 10_000


def test_a_load_limit_is_the_cap():
    """150 g of the weak one's own are 1500 of a pack of 1000 g, and 7500 of a limit of 200 g."""
    own = things(150, owner_id="p2")
    weak = world("ab ba", gear=own)
    assert least_peak(weak) == 1500
    limited = replace(weak.roster[1], load_limit_g=200, load_limit_reason="knee")
    assert least_peak(replace(weak, roster=(weak.roster[0], limited))) == 7500


def test_day_kit_is_in_the_owners_pack_even_beside_a_sled():
    """Day kit of 500 g in a pack of 1000 g is 5000; nightly kit may ride the sled, 1250."""
    problem = world("ab ba", mode=LegMode.SLED, gear=())
    hauler = replace(problem.roster[0], caps=Caps(pack_g=1000, sled_g=4000))
    problem = replace(
        problem,
        roster=(hauler, problem.roster[1]),
        sleds=(Sled("s", "p1", 0, 4000, 100_000),),
    )
    day_kit = things(500, need=Need(NeedKind.EVERY_TRIP), owner_id="p1")
    assert least_peak(replace(problem, gear=day_kit)) == 5000
    assert least_peak(replace(problem, gear=things(500, owner_id="p1"))) == 1250


def test_kit_in_use_weighs_nothing_where_it_is_used():
    """Kit for fixed ropes, needed on every trip, weighs 500 g on the pack leg alone."""
    kit = things(500, need=Need(NeedKind.EVERY_TRIP), in_use_on=(LegMode.FIXED_ROPE,))
    assert least_peak(world("ab ba", mode=LegMode.FIXED_ROPE, gear=kit)) == 0
    assert least_peak(world("ab ba", mode=LegMode.PACK, gear=kit)) == 5000


def test_pack_volume_counts_what_may_be_lashed_outside():
    """5500 mL fit a pack of 5000 mL and 10 %; 5501 mL do not."""
    for volume_ml, peak in ((5500, 1000), (5501, None)):
        gear = (Item("i", 100, volume_ml, NIGHTLY),)
        problem = world("ab ba", gear=gear)
        small = tuple(replace(p, pack_volume_ml=5000) for p in problem.roster)
        assert least_peak(replace(problem, roster=small)) == peak


def test_waste_comes_down_in_even_sacks():
    """Two nights of two people leave 4 × 150 = 600 g; sacks of at most 250 g make 3 × 200."""
    waste = Waste(waste_g_per_person_night=150, human_waste_sack_g=250)
    assert least_peak(world("ab b ba", waste=waste)) == 4000


def test_what_is_needed_from_a_place_on_may_go_there_ahead():
    """600, 500 and 400 g to b, of which the last may go on the carry of day 1, home by relay.

    With it day 2 has two packs for two things, 600 g; needed on the first night at a, it
    makes three, and 500 + 400 g are the better pair. The relay home has four packs.
    """
    ahead = Need(NeedKind.EVERY_NIGHT, from_place="b", may_go_ahead=True)
    gear = (*things(600, 500), replace(things(400)[0], item_id="x", need=ahead))
    assert least_peak(world("aba ab baba", gear=gear)) == 6000
    assert least_peak(world("aba ab baba", gear=things(600, 500, 400))) == 9000


def test_what_belongs_at_a_place_waits_there():
    """A thing of 400 g for b rides up on day 1 and home on day 3, not with 700 g for c.

    c is reached from b on day 2 with the 700 g thing alone, in one pack of 1000 g; on the
    way up and home each has its own pack. Were both for c, the pair would be split as well.
    """
    for_b = replace(things(400)[0], item_id="x", need=Need(NeedKind.AT_PLACE, up_to="b"))
    assert least_peak(world("ab bc cba", gear=(*things(700), for_b))) == 7000
    # With one pack only, both ride together between a and b: 400 + 500 g of 1000 g.
    both = (*things(500), for_b)
    assert least_peak(world("ab bc cba", caps_g=(1000, 0), gear=both)) == 9000
