"""The steered preferences as sums over packs and sleds."""

from __future__ import annotations

from dataclasses import replace

import pytest

from solver.model.formulation.build_frame import build_frame
from solver.model.goals.equipment_constraints import equipment_constraints
from solver.model.goals.party import movers_of, ropes_of
from solver.model.goals.sled_constraints import sled_constraints
from solver.model.goals.soft_constraint import Inequality, SoftConstraint, violated
from solver.model.goals.soft_constraints import soft_constraints
from solver.model.goals.streaks import RULE as STREAKS
from solver.model.instance.world import World, build_world
from solver.problem import Problem, Purpose, Sled
from solver.rulebook import RULES
from tests.model.frames import TWO, box, draft_of, index_of, two_with
from tests.rules.legs import with_legs
from tests.rules.worlds import item, on_glacier, person, world

SLEDS = tuple(
    Sled(f"s{n}", f"m{n}", tare_g=2_000, mass_limit_g=40_000, volume_ml=90_000) for n in (1, 2)
)
PEOPLE = tuple(replace(person(f"m{n}", sled_g=20_000), is_guide=n == 2) for n in (1, 2))


def _sledding(**legs: object) -> Problem:
    problem = world(people=PEOPLE, sleds=SLEDS, sled_leg_factors=(100, 100))
    return with_legs(problem, **legs)


def _of_first_trip(built: World) -> list[SoftConstraint]:
    trip = built.timeline.trips[0]
    return list(sled_constraints(built, trip, movers_of(built, trip)))


def test_a_constraint_is_violated_where_one_of_its_sums_is_positive() -> None:
    """5 kg in m1's pack and one of two boxes in m2's: each sum is judged, each constraint once."""
    frame = two_with(box("a", 5_000), box("b", 1_000))
    box_a = index_of(frame, "a")
    held = {(box_a, "m1"): 1, (index_of(frame, "b"), "m2"): 1}
    fits = SoftConstraint("x", (Inequality(-5_000, (("m1", 1),)),))
    over = SoftConstraint("x", (Inequality(-4_999, (("m1", 1),)), Inequality(1)))
    where = SoftConstraint("x", (Inequality(0, equipment_in=("m1",)),), frozenset({box_a}))
    elsewhere = SoftConstraint("x", (Inequality(0, equipment_in=("m2",)),), frozenset({box_a}))
    assert [violated(frame, 0, held, [one]) for one in (fits, over, where, elsewhere)] == [
        0,
        1,
        1,
        0,
    ]


def test_ropes_begin_with_their_first_guide() -> None:
    """The guide leads, else the first; haulers have their sled's tare."""
    built = build_world(_sledding())
    party = movers_of(built, built.timeline.trips[0])
    assert [(one.sled_id, one.tare_g) for one in party] == [("sled/s1", 2_000), ("sled/s2", 2_000)]
    ((lead, other),) = ropes_of(party)
    assert (lead.person.person_id, other.person.person_id) == ("m2", "m1")


@pytest.mark.parametrize(
    ("angle_deg", "least", "most"), [(5.0, 45, 65), (15.0, 30, 50), (22.0, 15, 35)]
)
def test_a_sleds_share_has_a_band_for_each_slope(angle_deg: float, least: int, most: int) -> None:
    """Of 10 kg in pack and sled together the sled's part must be in the band, tare included."""
    built = build_world(_sledding(steepest_deg=angle_deg))
    shares = [c for c in _of_first_trip(built) if c.rule_id == "sled_share_uphill"]
    assert len(shares) == 2
    too_little, too_much = shares[0].inequalities
    for percent in (least - 1, least, most, most + 1):
        sled_g, pack_g = 100 * percent - 2_000, 10_000 - 100 * percent
        sums = [
            one.fixed + dict(one.masses)["m1"] * pack_g + dict(one.masses)["sled/s1"] * sled_g
            for one in (too_little, too_much)
        ]
        assert [total > 0 for total in sums] == [percent < least, percent > most]


def test_traverses_leads_and_lasts_ask_for_light_sleds() -> None:
    """A traverse asks 70 % of both sleds, hazard 80 % of the lead's, going down a light last."""
    problem = on_glacier(_sledding(traverse=True))
    built = build_world(problem)
    by_rule = {one.rule_id: one.inequalities for one in _of_first_trip(built)}
    assert by_rule["sled_light_on_traverse"][0].fixed == 2_000 - 14_000
    assert by_rule["lead_sled_light"][0] == Inequality(2_000 - 16_000, (("sled/s2", 1),))
    down = built.timeline.trips[1]
    lasts = [
        one
        for one in sled_constraints(built, down, movers_of(built, down))
        if one.rule_id == "last_on_rope_light"
    ]
    (last,) = lasts
    assert last.inequalities == (Inequality(0, (("sled/s1", 1), ("sled/s2", -1))),)


def test_rescue_kit_is_not_for_those_in_the_middle_of_a_rope() -> None:
    """Of three on a rope only the middle one should not have the rope; its kit is named."""
    people = tuple(person(f"m{n}") for n in (1, 2, 3))
    rope = item("rope", purpose=Purpose.ROPE)
    built = build_world(world(people=people, gear=(rope,)))
    trip = built.timeline.trips[0]
    (constraint,) = equipment_constraints(built, trip, movers_of(built, trip))
    assert constraint.inequalities == (Inequality(0, equipment_in=("m2",)),)
    assert [built.cargo[cargo].unit_id for cargo in constraint.equipment] == ["rope"]


def test_every_soft_constraint_is_of_a_steered_preference_and_asked() -> None:
    """All that the search builds is marked in the rulebook; what is off is not built."""
    problem = on_glacier(_sledding(traverse=True, steepest_deg=15.0))
    steered = {rule.rule_id for rule in RULES if rule.steered}
    built = {one.rule_id for trip in soft_constraints(build_frame(problem)) for one in trip}
    assert built
    assert built < steered
    off = replace(problem.rules, switched_off=frozenset({"lead_sled_light"}))
    without = soft_constraints(build_frame(replace(problem, rules=off)))
    assert {one.rule_id for trip in without for one in trip} == built - {"lead_sled_light"}
    assert STREAKS in steered


def test_drafts_of_two_have_no_middle_of_a_rope() -> None:
    """Two people on a rope are both at an end, so that equipment may be with either."""
    frame = two_with(item("rope", purpose=Purpose.ROPE), people=TWO)
    assert all(
        one.rule_id != "guides_carry_rescue_kit" for t in soft_constraints(frame) for one in t
    )
    assert draft_of(frame, {"m1": "rope"}, {}).carried
