"""Why there is no plan for the rest: never nothing, and never a rule about what is over."""

from collections import Counter
from random import Random

from solver.outcome import Infeasible
from solver.problem import History
from solver.rest.planning import plan_rest
from tests.rest.under_way import QUICK, at, drawn_event, followed


def test_bags_that_nobody_can_fetch_are_lacking_where_they_are_eaten():
    """Two sets stand behind the party, which does not go back: two are lacking, not one."""
    drawn = followed("tiny", 17)
    assert drawn is not None
    rest = plan_rest(at(drawn[0], History(1)), drawn[1], QUICK, wait_nights=1)
    assert isinstance(rest.outcome, Infeasible)
    (conflict,) = rest.outcome.conflicts
    assert (conflict.rule_id, conflict.amount) == ("night_sets_held", 2)


def test_every_refusal_has_a_reason():
    """Drawn losses and waits: each rest without a plan names at least one conflict."""
    chance, seen = Random(5), Counter[bool]()
    for seed in range(40):
        drawn = followed("tiny", seed)
        if drawn is not None:
            event = drawn_event(*drawn, chance)
            outcome = plan_rest(
                event, drawn[1], QUICK, wait_nights=chance.choice((0, 1, 2))
            ).outcome
            if isinstance(outcome, Infeasible):
                seen[bool(outcome.conflicts)] += 1
    assert seen[True] > 5
    assert seen[False] == 0
