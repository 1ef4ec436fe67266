"""Changes: what each does to a problem, in which words, and that none is in force already."""

from __future__ import annotations

from dataclasses import replace

import pytest

from solver.diagnosis import ChangeKind
from solver.problem import (
    Container,
    Direction,
    LegMode,
    Need,
    NeedKind,
    Problem,
    Reserve,
    ReserveKind,
    Sled,
)
from solver.problem.faults import examine
from solver.questions.changes.caps import cap_changes
from solver.questions.changes.change import Change, figure, fixed
from solver.questions.changes.days import day_changes, fewer_carries
from solver.questions.changes.enough import gives_counts, with_enough
from solver.questions.changes.people import (
    fewer_sleds,
    one_less_person,
    one_more_person,
    sled_changes,
)
from solver.questions.changes.things import reserve_changes, stock_changes, thing_changes
from tests.questions.worlds import own_kits, shared
from tests.rules.worlds import item, person, world


def days_of(problem: Problem | None) -> str:
    """The calendar in the words that worlds are written in."""
    assert problem is not None
    return " ".join("-".join(day.visits[0].places) for day in problem.calendar.days)


def only(changes: list[Change], text: str) -> Change:
    """The one change with some words in it."""
    (found,) = [change for change in changes if text in change.say(1_500)]
    return found


def test_a_figure_says_grams_as_kilograms_and_millilitres_as_litres():
    """Amounts in whole hundreds are said with one decimal."""
    assert (figure(1_500, "g"), figure(300, "mL")) == ("1.5 kg", "0.3 L")


def test_what_costs_less_in_the_field_comes_first():
    """Sending ahead comes before leaving, a cap before a carry, and a reserve last."""
    kinds = [ChangeKind.RESERVE, ChangeKind.CARRY, ChangeKind.CAP, ChangeKind.SEND_AHEAD]
    changes = [Change(kind, fixed(""), lambda problem, _: problem) for kind in kinds]
    assert sorted(changes, key=lambda change: change.cost()) == changes[::-1]
    assert [change.is_decision for change in changes] == [True, False, False, False]


def test_a_larger_cap_of_one_person_changes_nothing_else():
    """The cap of the person named grows by the amount; the other person's stays."""
    problem = own_kits(5_000, 5_000)
    change = only(list(cap_changes(problem)), "the pack cap of m2 by 1.5 kg")
    caps = [p.caps.pack_g for p in change.apply(problem, 1_500).roster]
    assert caps == [10_000, 11_500]


def test_every_pack_cap_is_raised_on_all_legs():
    """Where a leg has a cap of its own, "every pack cap" raises it, too."""
    rope = ((LegMode.FIXED_ROPE, Direction.OUTBOUND, 8_000),)
    problem = world(people=(person(pack_by_leg=rope),))
    change = only(list(cap_changes(problem)), "every pack cap of m1")
    (who,) = change.apply(problem, 500).roster
    assert (who.caps.pack_g, who.caps.pack_by_leg[0][2]) == (20_500, 8_500)
    narrow = only(list(cap_changes(problem)), "the pack cap on fixed rope legs, outbound, of m1")
    (who,) = narrow.apply(problem, 500).roster
    assert (who.caps.pack_g, who.caps.pack_by_leg[0][2]) == (20_000, 8_500)


def test_a_sled_has_its_mass_limit_and_its_volume():
    """Both of a sled can grow, each by itself."""
    sled = Sled("s", "m1", tare_g=2_000, mass_limit_g=30_000, volume_ml=100_000)
    problem = world(people=(person(sled_g=30_000),), sleds=(sled,), sled_leg_factors=(100, 100))
    mass = only(list(cap_changes(problem)), "mass limit of sled s")
    volume = only(list(cap_changes(problem)), "volume of sled s")
    assert mass.apply(problem, 100).sleds[0].mass_limit_g == 30_100
    assert volume.apply(problem, 100).sleds[0].volume_ml == 100_100


def test_no_thing_is_sent_ahead_that_may_go_already():
    """Of two items needed from c1 only the one that may not go ahead is offered."""
    needs = (
        Need(NeedKind.EVERY_TRIP, from_place="c1", may_go_ahead=True),
        Need(NeedKind.EVERY_TRIP, from_place="c1"),
    )
    gear = tuple(item(f"i{n}", need) for n, need in enumerate(needs))
    found = [c for c in thing_changes(world(gear=gear)) if c.kind is ChangeKind.SEND_AHEAD]
    assert [change.about for change in found] == [(("unit", "i1"),)]
    changed = found[0].apply(world(gear=gear), 0)
    assert changed.gear[1].need.may_go_ahead


def test_what_may_follow_is_not_offered_again():
    """An item that belongs at a place may be let follow, once."""
    at_place = Need(NeedKind.AT_PLACE, up_to="c1")
    problem = world(gear=(item("kitchen", at_place),))
    (change,) = [c for c in thing_changes(problem) if "follow" in c.say(0)]
    changed = change.apply(problem, 0)
    assert changed.gear[0].need.may_follow
    assert not [c for c in thing_changes(changed) if "follow" in c.say(0)]


def test_some_of_several_alike_are_left_and_then_all():
    """Two of three boxes stay at home, and with the third none is listed any more."""
    problem = shared(3_000)
    (change,) = [c for c in thing_changes(problem) if c.kind is ChangeKind.LEAVE]
    assert change.apply(problem, 2).gear[0].count == 1
    assert change.apply(problem, 3).gear == ()


def test_one_night_less_of_a_reserve_and_none_of_the_last():
    """A reserve of two nights becomes one, a reserve of one is gone."""
    two = Reserve("c1", "g1", ReserveKind.STORM, 2, "meal")
    problem = replace(shared(1_000), reserves=(two,))
    (change,) = reserve_changes(problem)
    assert change.apply(problem, 0).reserves == (replace(two, nights=1),)
    one = replace(problem, reserves=(replace(two, nights=1),))
    (change,) = reserve_changes(one)
    assert change.apply(one, 0).reserves == ()


def test_more_containers_and_bags_are_offered_where_their_number_is_given():
    """A number that the trip settles itself is not in need of more."""
    problem = shared(1_000)
    assert list(stock_changes(problem)) == []
    can = Container("can", "g1", content_ml=500, tare_g=100, volume_ml=600, count=1)
    groups = tuple(replace(g, containers=(can,)) for g in problem.cook_groups)
    meals = tuple(replace(m, bag_count=2) for m in problem.night_sets)
    given = replace(problem, cook_groups=groups, night_sets=meals)
    cans, bags = stock_changes(given)
    assert cans.apply(given, 2).cook_groups[0].containers[0].count == 3
    assert bags.apply(given, 1).night_sets[0].bag_count == 3


def test_a_carry_goes_before_its_move_and_a_night_is_taken_or_added():
    """The calendar with one carry more, with the rest day left out, and with one more."""
    problem = shared(1_000, days="strip-c1 c1 c1-strip")
    said = {change.say(0): days_of(change.apply(problem, 0)) for change in day_changes(problem)}
    assert said == {
        "one more carry from strip to c1 (outbound), on a day of its own": (
            "strip-c1-strip strip-c1 c1 c1-strip"
        ),
        "one more carry from c1 to strip (homeward), on a day of its own": (
            "strip-c1 c1 c1-strip-c1 c1-strip"
        ),
        "one night less at c1, without day 2": "strip-c1 c1-strip",
        "one night more at c1, after day 1": "strip-c1 c1 c1 c1-strip",
    }


def test_one_carry_less_for_each_there_is():
    """Of a calendar with one carry that day can be left out."""
    problem = shared(1_000, days="strip-c1-strip strip-c1 c1-strip")
    (change,) = fewer_carries(problem)
    assert days_of(change.apply(problem, 0)) == "strip-c1 c1-strip"


@pytest.fixture
def hauling() -> Problem:
    """Three people, of whom m1 has a sled and m2 could haul one."""
    people = (person("m1", sled_g=30_000), person("m2", sled_g=30_000), person("m3"))
    sled = Sled("s", "m1", tare_g=2_000, mass_limit_g=30_000, volume_ml=100_000)
    return world(
        "strip-c1 c1-strip",
        people=people,
        gear=(item("kit", mass_g=1_000, owner_id="m1"),),
        sleds=(sled,),
        sled_leg_factors=(100, 100),
    )


def test_a_sled_more_goes_to_who_may_haul_one_and_has_none(hauling):
    """One more sled is offered for m2 only, and one less is the only one there is."""
    (more,) = sled_changes(hauling)
    assert [sled.hauler_id for sled in more.apply(hauling, 0).sleds] == ["m1", "m2"]
    (less,) = fewer_sleds(hauling)
    assert less.apply(hauling, 0).sleds == ()


def test_a_person_more_or_less_has_kit_and_sled(hauling):
    """A person like m1 brings a kit and a sled; without m1 neither is there, and no fault is."""
    more = only(list(one_more_person(hauling)), "like m1").apply(hauling, 0)
    assert [p.person_id for p in more.roster] == ["m1", "m2", "m3", "m1-2"]
    assert [i.unit_id for i in more.gear] == ["m1/kit", "m1-2/kit"]
    assert [s.hauler_id for s in more.sleds] == ["m1", "m1-2"]
    less = only(list(one_less_person(hauling)), "without m1").apply(hauling, 0)
    assert [p.person_id for p in less.roster] == ["m2", "m3"]
    assert (less.gear, less.sleds) == ((), ())
    assert examine(more)[0] == ()
    assert examine(less)[0] == ()


def counted(problem: Problem, count: int) -> Problem:
    """The problem with so many cans of 250 mL and bags of one night set that burns 200 mL."""
    (group,) = problem.cook_groups
    can = Container("can", group.cook_group_id, 250, 50, 400, count)
    sets = (replace(one, bag_count=count, fuel_ml=200) for one in problem.night_sets)
    return replace(
        problem, cook_groups=(replace(group, containers=(can,)),), night_sets=tuple(sets)
    )


def test_a_person_more_brings_food_and_fuel_where_too_few_are_given():
    """Four bags for two people and two nights are too few for three, and then as many as needed."""
    problem = shared(1_000, days="strip-c1 c1 c1-strip")
    enough = counted(problem, 4)
    assert gives_counts(enough)
    assert not gives_counts(problem)
    assert not examine(enough)[0]
    more, _ = one_more_person(enough)
    changed = more.apply(enough, 0)
    assert changed is not None
    assert not examine(changed)[0]
    assert [one.bag_count for one in changed.night_sets] == [None]
    assert [can.count for can in changed.cook_groups[0].containers] == [None]
    assert "with kit, food and fuel" in more.say(0)


def test_counts_that_are_enough_stay():
    """A dozen of each last for one person more, so nobody buys any."""
    problem = counted(shared(1_000, days="strip-c1 c1 c1-strip"), 12)
    more, _ = one_more_person(problem)
    changed = more.apply(problem, 0)
    assert changed is not None
    assert (changed.night_sets, changed.cook_groups) == (problem.night_sets, problem.cook_groups)


def test_a_longer_calendar_says_that_it_takes_enough():
    """A night more takes the bags that it needs, and says so where their number is given."""
    problem = counted(shared(1_000, days="strip-c1 c1 c1-strip"), 4)
    longer = next(c for c in day_changes(problem) if "one night more" in c.say(0))
    assert longer.say(0) == "one night more at c1, after day 1, with enough fuel and bags"
    changed = longer.apply(problem, 0)
    assert changed is not None
    assert not examine(changed)[0]


def test_what_is_wrong_otherwise_stays_wrong():
    """Too few bags for people who sleep nowhere known: nothing is bought for such a request."""
    problem = counted(shared(1_000, days="strip-c1 c1 c1-strip"), 1)
    assert with_enough(problem) != problem
    lost = replace(problem, gear=(*problem.gear, *problem.gear))
    assert with_enough(lost) is lost
