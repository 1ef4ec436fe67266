"""What is said where loads are too much: the person where it is one person's, then the party."""

from __future__ import annotations

from dataclasses import replace

from solver.model.infeasible.overload_remedies import party_remedies, person_remedies
from solver.model.infeasible.overload_words import Overload, tell_together, up
from solver.model.infeasible.overloads import tell_overloads
from solver.model.rows import LoadRow
from solver.model.solvers.relaxation_refusals import least_excess
from solver.model.solvers.relaxation_rows import build_relaxation
from solver.outcome import Conflict, Infeasible, Limits
from solver.pipeline import plan
from solver.problem import NightSet, Problem, Reserve, ReserveKind
from solver.progress import Watch
from tests.model.frames import box, two_with
from tests.rules.test_party_big_enough import CASES
from tests.rules.worlds import EVERY_NIGHT, item, person, world

TOO_SMALL_A_PARTY = CASES[7]
STEADY = Limits(wall_seconds=20.0, workers=1, seed=1)


def refused(problem: Problem, watch: Watch | None = None) -> tuple[Conflict, ...]:
    """The conflicts of a problem that has no plan."""
    outcome = plan(problem, STEADY, watch)
    assert isinstance(outcome, Infeasible)
    return outcome.conflicts


def weak_third(cap_g: int = 9_000) -> Problem:
    """Three people and 12 kg of shared gear over two nights; m3 owns 9.8 kg, m1 and m2 5 kg."""
    people = (person("m1"), person("m2"), person("m3", pack_g=cap_g))
    kit = tuple(
        item(f"kit-{who}", EVERY_NIGHT, mass_g=mass_g, owner_id=who)
        for who, mass_g in (("m1", 5_000), ("m2", 5_000), ("m3", 9_800))
    )
    shared = (item("tent", EVERY_NIGHT, mass_g=7_000), item("rope", mass_g=5_000))
    return world("strip-c1 c1-c2 c2-c1-strip", people=people, gear=(*kit, *shared))


def test_one_persons_own_kit_is_one_conflict_that_names_the_person() -> None:
    """0.8 kg above m3's cap on each of four trips is one conflict, m3's, with all four trips."""
    (told,) = refused(weak_third())
    assert told.rule_id == "pack_cap_held"
    assert "what only m3 can carry (own kit, water and lunch) is 0.8 kg too much" in told.message
    assert "pack cap of 9.0 kg" in told.message
    assert "party" not in told.message
    assert (told.amount, told.unit, dict(told.where)["person"]) == (800, "g", "m3")
    days = [dict(told.where)["day"], *(dict(one.where)["day"] for one in told.more)]
    assert sorted(map(str, days)) == ["1", "2", "3", "3"]


def test_what_is_told_of_a_person_does_not_hang_on_shared_gear() -> None:
    """Without any shared gear the same conflict stands, and with 0.8 kg more there is a plan."""
    problem = weak_third()
    alone = replace(problem, gear=tuple(i for i in problem.gear if i.owner_id is not None))
    assert refused(alone)[0].message == refused(problem)[0].message
    assert not isinstance(plan(weak_third(9_800), STEADY), Infeasible)


def test_a_person_comes_before_the_party_and_leaves_its_sum_true() -> None:
    """With m3 over by 0.8 kg and 40 kg of shared gear, both are told, m3 first."""
    problem = weak_third()
    gear = (*problem.gear, item("crate", mass_g=16_000), item("drum", mass_g=14_000))
    first, *others = refused(replace(problem, gear=gear))
    assert (dict(first.where)["person"], first.amount) == ("m3", 800)
    assert others
    assert all("person" not in dict(other.where) for other in others)


def test_a_volume_is_told_in_litres_of_the_person() -> None:
    """3.2 L more than the own pack holds with its allowance are the person's, in mL."""
    small = replace(person("m1"), pack_volume_ml=10_000)
    kit = replace(item("kit", owner_id="m1"), volume_ml=14_200)
    (told,) = refused(world(people=(small, person("m2")), gear=(kit,)))
    assert told.rule_id == "pack_volume_held"
    assert (told.amount, told.unit, dict(told.where)["person"]) == (3_200, "mL", "m1")
    assert "the own kit of m1, which nobody else carries, is 3.2 L too much" in told.message


def test_a_party_that_is_too_small_is_told_with_its_sum() -> None:
    """Two packs of 20 kg and 43 kg that anybody could carry lack 3.0 kg, nobody is named."""
    gear = tuple(item(f"box-{n}", mass_g=1_000) for n in range(43))
    (told,) = refused(world(people=(person("m1"), person("m2")), gear=gear))
    assert "3.0 kg too much for the party's 40.0 kg, however it is shared out" in told.message
    assert told.amount == 3_000
    assert "person" not in dict(told.where)


def test_the_joint_optimum_is_not_told_as_a_necessity() -> None:
    """Where no single trip is too much the words are "by one way of sharing out"."""
    frame = two_with(box("box", 1_000))
    rows = [rows[0] for rows in frame.load_rows[:2]]
    told = tell_together(frame, [(rows[0], 0.5), (rows[1], 1.25)])
    assert "by one way of sharing out, 1.3 kg are too much" in told.message
    assert "however it is shared out" not in told.message
    assert [one.amount for one in told.more] == [500]


def test_an_overload_keeps_every_trip_that_alone_is_too_much() -> None:
    """A box of 25 kg that only m1 may carry is too much both ways, told once of m1."""
    frame = two_with(box("box", 25_000, owner_id="m1"))
    missing = least_excess(build_relaxation(frame, with_excess=True), seconds=10.0)
    assert missing
    (told,) = tell_overloads(frame, missing, seconds=10.0)
    assert told.amount == 5_000
    assert len(told.more) == 1


def test_kit_that_already_rides_with_the_rope_team_is_not_offered_again() -> None:
    """The rope team is a remedy only while it may not carry, and raising the limit always is."""
    for shared in (False, True):
        spared = replace(person("m1"), load_limit_g=100, kit_to_rope_team=shared)
        gear = (item("day-kit", mass_g=900, owner_id="m1"),)
        frame_of = two_with(box("box", 1_000))
        problem = replace(world(people=(spared, person("m2")), gear=gear))
        frame = replace(frame_of, world=replace(frame_of.world, problem=problem))
        row = LoadRow("load_limit_held", 0, "m1", True, True, True, 0, 100, True)
        ways = person_remedies(frame, row, 0.8)
        assert any("kit_to_rope_team" in way.text for way in ways) is not shared
        assert any(way.kind.value == "raise" and way.amount == 800 for way in ways)


def test_a_number_of_the_rules_at_its_end_is_not_offered() -> None:
    """The outside allowance is a remedy below 100 %, not at it; likewise the first day's share."""
    for percent in (10, 100):
        frame = two_with(box("box", 1_000))
        rules = replace(
            frame.world.problem.rules,
            pack_volume_allowance_percent=percent,
            numbers=(("first_load_percent", percent),),
        )
        problem = replace(frame.world.problem, rules=rules)
        frame = replace(frame, world=replace(frame.world, problem=problem))
        volume = LoadRow("pack_volume_held", 0, "m1", False, True, False, 0, 100, False)
        first = LoadRow("first_load_within_plan", 0, "m1", True, True, False, 0, 100, False)
        texts = [w.text for row in (volume, first) for w in person_remedies(frame, row, 1.0)]
        assert any("pack_volume_allowance" in text for text in texts) is (percent < 100)
        assert any("first_load_percent" in text for text in texts) is (percent < 100)


def test_fewer_nights_of_reserve_come_last_as_a_decision() -> None:
    """A reserve beyond the trip may be made smaller; it is the last remedy and marked."""
    meal = NightSet("meal", "g1", 1000, 0, 0, volume_ml=0, fuel_ml=0)
    storm = (Reserve("c1", "g1", ReserveKind.STORM, 9, "meal"),)
    people = (person("m1", pack_g=4_000), person("m2", pack_g=4_000))
    problem = world("strip-c1 c1-strip", people=people, night_sets=(meal,), reserves=storm)
    told = refused(problem)[0]
    assert [way.is_decision for way in told.remedies].count(True) == 1
    assert told.remedies[-1].text == "hold fewer nights in reserve at c1"
    frame = two_with(box("box", 1_000))
    row = frame.load_rows[0][0]
    assert not any(way.is_decision for way in party_remedies(frame, row, 1.0))


def test_amounts_in_words_are_rounded_up() -> None:
    """Raising a cap by the amount in words is always enough: 0.81 kg is called 0.9 kg."""
    assert [up(a) for a in (0.8, 0.81, 0.89, 2.0)] == ["0.8", "0.9", "0.9", "2.0"]
    assert Overload("m1", (), alone=True).person_id == "m1"


def test_a_refusal_tells_how_long_it_took() -> None:
    """A clock that stands at a million seconds and ticks once a look gives seconds, not that."""
    ticks = iter(range(1_000_000, 2_000_000))
    watch = Watch(1e9, now=lambda: float(next(ticks)))
    refused(TOO_SMALL_A_PARTY.problem, watch)
    assert all(0 <= seconds < 1_000 for _, seconds in watch.stages)
