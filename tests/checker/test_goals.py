"""The goals of a plan, recomputed from its replay and from what the rules found."""

import pytest

from solver.checker.goals import (
    hard_days,
    hardness,
    mass_ascent,
    peak_load,
    preferences,
    recomputed_goals,
    weighted_swaps,
)
from solver.model.goals.hard_days import hardness as model_hardness
from solver.plan import Finding
from solver.rulebook import RULES, RuleKind, rule
from solver.rulebook.goals import SWAP_AT_STOP, goals_asked
from tests.checker.replaying import replay_of
from tests.rules.worlds import item, person, world

STEERED = [rule.rule_id for rule in RULES if rule.steered]
PEOPLE = (person("m1"), person("m2"))
GEAR = (item("rope", mass_g=5_000, count=2),)


def _replayed():
    """Both ropes up with m1, one each down: of a cap of 20 kg 50 % and 25 %."""
    return replay_of(
        world(people=PEOPLE, gear=GEAR), {"m1": "rope*2"}, {"m1": "rope", "m2": "rope"}
    )


def test_loads_are_the_largest_and_the_sum_of_the_largest():
    """The trip up has 50 %, the trip down 25 %."""
    assert peak_load(_replayed()) == 5_000
    assert hard_days(_replayed()) == 0


def test_only_what_goes_up_counts_as_mass_times_ascent():
    """10 kg go up 1,000 m; what comes down counts nothing."""
    assert mass_ascent(_replayed()) == 10_000 * 1_000


def test_a_unit_with_another_carrier_is_a_swap():
    """One rope changes from m1 to m2 at the stop of the day."""
    assert weighted_swaps(_replayed()) == SWAP_AT_STOP


def test_preferences_count_the_findings_of_steered_rules_only():
    """Two findings of one steered rule and one of another rule count two."""
    finding = Finding("any", "", 1, "units")
    found = {STEERED[0]: (finding, finding), "pack_cap_held": (finding,), STEERED[1]: ()}
    assert preferences(found) == 2
    assert {rule(rule_id).kind for rule_id in STEERED} == {RuleKind.PREFERENCE}


def test_all_goals_come_in_the_order_in_which_they_are_taken():
    """The ids are those of the plan's register, in its order."""
    values = recomputed_goals(_replayed(), {})
    assert [goal_id for goal_id, _ in values] == [
        goal.goal_id for goal in goals_asked(with_former=False)
    ]
    assert dict(values)["preferences"] == 0


@pytest.mark.parametrize(
    ("fraction", "counted"),
    [
        (8_000, 0),
        (9_000, 0),
        (9_100, 100),
        (9_300, 400),
        (9_500, 1_000),
        (9_700, 2_200),
        (10_100, 7_800),
    ],
)
def test_each_two_percent_above_ninety_count_twice_as_much(fraction: int, counted: int) -> None:
    """Steps of 2 % count 1, 2, 4, 8 and 16 times, worked out by hand; the last has no end."""
    assert hardness(fraction) == counted
    assert model_hardness(fraction) == counted
