"""What an answer says of the rest where there is no plan; solved ones are played elsewhere."""

from types import SimpleNamespace

from api_schema.replan import ReplanRequest
from service.translate.write.rest import write_rest
from solver.outcome import Conflict, Infeasible, NoPlanInTime, SolveRecord
from solver.problem import Reserve, ReserveKind
from solver.rest.result import LettingGo, Rest
from solver.rest.wait import Spent
from tests.problem.small_world import small_world

RECORD = SolveRecord("none", 0, 0, ())
SPENT = Spent(Reserve("c1", "g1", ReserveKind.STORM, 2, "storm"), 1, "waiting at c1")
REPLAN = SimpleNamespace(
    state=ReplanRequest.model_validate({"at": {"day": 2, "moment": "morning"}}),
    of_plan="plan_x",
    unexplained=("c1: 1 fewer of g1/low than planned, lost.",),
)


def test_a_refusal_says_why_and_who_decides():
    """The first conflict in its own words, then what people on the spot may do."""
    outcome = Infeasible((Conflict("fuel_held", "there is too little fuel"),), RECORD)
    step = LettingGo("storm", kind=ReserveKind.STORM, place_id="c1")
    told = write_rest(REPLAN, Rest(small_world(), outcome, (SPENT,), (step,)))
    assert told.say[1] == "there is too little fuel"
    assert told.say[-1] == "Decide on the spot: wait, go down, or call for help."
    assert [(one.place, one.kind, one.nights, one.left) for one in told.spent] == [
        ("c1", "storm", 1, 1)
    ]
    assert [(one.reserve, one.place, one.reason) for one in told.let_go] == [
        ("storm", "c1", "storm")
    ]
    assert (told.day, told.moment, told.of_plan) == (2, "morning", "plan_x")
    assert told.unexplained == list(REPLAN.unexplained)
    assert (told.waits, told.next_move, told.last_summit_day) == ([], None, None)


def test_a_refusal_says_which_rule_the_leader_may_let_go():
    """It names the field and the rule where that is allowed, and nothing where the rule is firm."""

    def said(rule_id):
        outcome = Infeasible((Conflict(rule_id, "too much waste"),), RECORD)
        return write_rest(REPLAN, Rest(small_world(), outcome)).say

    assert said("sled_slope_limited")[2] == (
        "The leader may decide to go on without this rule: send sled_slope_limited in "
        "`letting_go`, with the reason."
    )
    assert "send its kind in `letting_go`" in said("reserves_held")[2]
    assert len(said("units_conserved")) == 3


def test_no_plan_in_time_is_no_refusal():
    """It is not said that there is none."""
    told = write_rest(REPLAN, Rest(small_world(), NoPlanInTime(None, RECORD)))
    assert "does not say that there is none" in told.say[0]
