"""The report of a stress test, written as the answer that a caller reads."""

from __future__ import annotations

from api_schema.stress_answer import (
    BlowAnswer,
    ChanceAnswer,
    GroupOddsAnswer,
    OneMoreAnswer,
    ReserveUsedAnswer,
    ReserveWorthAnswer,
    StressResultAnswer,
    VerdictCountsAnswer,
    WeakestDayAnswer,
)
from service.translate.read.requests import ReadRequest
from service.translate.write.common import write_cautions
from solver.outlook.odds import Odds, Shares
from solver.outlook.policies import ReserveWorth
from solver.rest.wait import Spent
from solver.stress.report import Report, Result, Verdict, Weakest


def write_stress(
    report: Report, read: ReadRequest, found: list[GroupOddsAnswer] | None
) -> StressResultAnswer:
    """The answer to a stress test, with the odds where chances were given."""
    return StressResultAnswer(
        outcome="stress_tested",
        states=report.states,
        states_not_settled=report.states_with(Verdict.NOT_SETTLED),
        counts=VerdictCountsAnswer(
            stands=report.count(Verdict.STANDS),
            after_replan=report.count(Verdict.AFTER_REPLAN),
            no=report.count(Verdict.NO),
            not_settled=report.count(Verdict.NOT_SETTLED),
        ),
        weakest_day=None if report.weakest is None else _weakest(report.weakest),
        blows=[_blow(result) for result in report.results],
        odds=found,
        cautions=write_cautions(read),
    )


def write_odds(cook_group_id: str, found: Odds, worth: tuple[ReserveWorth, ...]) -> GroupOddsAnswer:
    """The odds of one cook group, with what one more night at each place would buy."""
    return GroupOddsAnswer(
        cook_group=cook_group_id,
        scenarios=found.everything.scenarios,
        food=_chance(found.food),
        fuel=_chance(found.fuel),
        summit=None if found.summit is None else _chance(found.summit),
        everything=_chance(found.everything),
        one_more_night=[
            ReserveWorthAnswer(place=one.place_id, gain=one.gain, standard_error=one.standard_error)
            for one in worth
        ],
    )


def _chance(shares: Shares) -> ChanceAnswer:
    low, high = shares.interval()
    return ChanceAnswer(
        chance=shares.chance, standard_error=shares.standard_error, low=low, high=high
    )


def _blow(result: Result) -> BlowAnswer:
    blow, settled = result.blow, result.settled
    survived = settled.verdict in {Verdict.STANDS, Verdict.AFTER_REPLAN}
    return BlowAnswer(
        kind=blow.kind.value,
        day=blow.day,
        places=list(blow.places),
        thing=blow.thing or None,
        nights=blow.nights or None,
        verdict=settled.verdict.value,
        why=settled.why or None,
        reserves_used=[_used(one) for one in settled.spent] if survived else [],
        same_as_before=result.is_merged,
    )


def _used(spent: Spent) -> ReserveUsedAnswer:
    return ReserveUsedAnswer(
        kind=spent.reserve.kind.value,
        place=spent.reserve.place_id,
        cook_group=spent.reserve.cook_group_id,
        nights=spent.nights,
        nights_left=spent.left,
    )


def _weakest(weakest: Weakest) -> WeakestDayAnswer:
    return WeakestDayAnswer(
        day=weakest.day,
        no=weakest.no,
        not_settled=weakest.not_settled,
        after_replan=weakest.after_replan,
        one_more=[
            OneMoreAnswer(
                thing=one.thing,
                night_of_food_and_fuel=one.nights > 0,
                helps=one.helps,
                not_settled=one.not_settled,
            )
            for one in weakest.one_more
        ],
    )
