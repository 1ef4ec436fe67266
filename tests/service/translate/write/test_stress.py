"""The report of a stress test as it is written."""

from api_schema.examples import SMALLEST_REQUEST
from service.translate.read.requests import read_plan_request
from service.translate.write.stress import write_odds, write_stress
from solver.outlook.odds import odds
from solver.outlook.policies import policy_of
from solver.outlook.storms import StormChance
from solver.problem import ReserveKind
from solver.rest.wait import Spent
from solver.stress.blows import Blow, BlowKind
from solver.stress.report import Report, Result, Settled, Verdict
from tests.outlook.test_policies import GROUP, PROBLEM

READ = read_plan_request(SMALLEST_REQUEST)
STORM = Blow(BlowKind.STORM, 2, ("camp",), nights=2)


def test_reserves_are_told_where_they_let_a_plan_survive():
    """What a survived storm takes is written with what is left; where nothing helps it is not."""
    spent = (Spent(PROBLEM.reserves[0], 1, "storm"),)
    results = tuple(
        Result(STORM, Settled(verdict, "why", spent))
        for verdict in (Verdict.AFTER_REPLAN, Verdict.NO)
    )
    survived, lost = write_stress(Report(results, 2, None), READ, None).blows
    assert [(r.kind, r.nights, r.nights_left) for r in survived.reserves_used] == [
        (ReserveKind.STORM.value, 1, 0)
    ]
    assert (lost.verdict, lost.reserves_used, lost.thing, lost.nights) == ("no", [], None, 2)


def test_states_that_are_not_settled_are_counted_and_listed():
    """Two blows that leave the same state are two blows and one state."""
    results = (
        Result(STORM, Settled(Verdict.NOT_SETTLED)),
        Result(STORM, Settled(Verdict.NOT_SETTLED), is_merged=True),
        Result(STORM, Settled(Verdict.STANDS)),
    )
    told = write_stress(Report(results, 2, None), READ, None)
    assert (told.states, told.states_not_settled) == (2, 1)
    assert told.counts.not_settled == 2
    assert [blow.verdict for blow in told.blows] == ["not_settled", "not_settled", "stands"]


def test_a_chance_is_written_with_its_interval():
    """The chance lies in its interval, and the error is that of the shares."""
    weather = (StormChance(0, 1), StormChance(0, 1), StormChance(0.2, 1.25))
    found = odds(policy_of(PROBLEM, GROUP), weather, scenarios=2000, seed=1, dates=12)
    food = write_odds("g", found, ()).food
    assert food.low < food.chance < food.high
    assert food.standard_error == found.food.standard_error
