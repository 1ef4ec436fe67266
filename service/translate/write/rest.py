"""What an answer says of a plan that was made on the way: sentences first, then the figures."""

from __future__ import annotations

from collections.abc import Iterator

from api_schema.evacuation_answer import EvacuationAnswer, PlacedUnitsAnswer
from api_schema.rest_answer import (
    BurntAnswer,
    ChangedLoadAnswer,
    LetGoAnswer,
    NextMoveAnswer,
    NightsAnswer,
    NightSetAnswer,
    PersonAtAnswer,
    RestAnswer,
    SettledAnswer,
    SpentAnswer,
    UnitCountAnswer,
    WaitAnswer,
)
from service.translate.read.replans import ReadReplan
from service.translate.write.units import kilograms, litres, share
from service.translate.write.waiting_words import waiting_words
from solver.outcome import Infeasible, Solved
from solver.outlook import Wait
from solver.outlook.waiting import Nights
from solver.problem import Person, Problem
from solver.rest.advice import Advice, advise
from solver.rest.changes import ChangedLoad, changed_loads
from solver.rest.result import Rest
from solver.rulebook import rule


def write_rest(
    replan: ReadReplan, rest: Rest, evacuation: EvacuationAnswer | None = None
) -> RestAnswer:
    """The part of an answer that is about the rest."""
    solved = rest.outcome if isinstance(rest.outcome, Solved) else None
    advice = advise(rest.problem, solved.plan) if solved is not None else None
    changes = (
        changed_loads(rest.problem, replan.followed, solved.plan) if solved is not None else ()
    )
    return RestAnswer(
        say=[*(evacuation.say if evacuation is not None else ()), *_say(rest, advice, changes)],
        of_plan=replan.of_plan,
        day=replan.state.at.day,
        moment=replan.state.at.moment,
        unchanged=rest.is_unchanged,
        waits=[_wait(wait) for wait in advice.waits] if advice is not None else [],
        next_move=None if advice is None else _next_move(advice),
        last_summit_day=advice.last_summit_day if advice is not None else None,
        last_turn_day=advice.last_turn_day if advice is not None else None,
        spent=write_spent(rest),
        let_go=write_let_go(rest),
        night_sets=[
            NightSetAnswer(day=day, cook_group=group.cook_group_id, set_id=set_id)
            for group in rest.problem.cook_groups
            for day, set_id in sorted(dict(group.set_on).items())
        ],
        changes=[_change(change) for change in changes],
        unexplained=list(replan.unexplained),
        settled=list(_settled(rest.problem)),
        evacuation=evacuation,
    )


def write_spent(rest: Rest) -> list[SpentAnswer]:
    """Nights of reserves that were used up or given up."""
    return [
        SpentAnswer(
            place=one.reserve.place_id,
            cook_group=one.reserve.cook_group_id,
            kind=one.reserve.kind.value,
            nights=one.nights,
            left=one.left,
            why=one.why,
        )
        for one in rest.spent
    ]


def write_let_go(rest: Rest) -> list[LetGoAnswer]:
    """The steps of the leader's order that were needed."""
    return [
        LetGoAnswer(
            rule_id=step.rule_id,
            reserve=None if step.kind is None else step.kind.value,
            place=step.place_id,
            reason=step.reason,
        )
        for step in rest.let_go
    ]


def _settled(problem: Problem) -> Iterator[SettledAnswer]:
    """Every count so far, the oldest first."""
    for one in problem.history.chain if problem.history is not None else ():
        moment = (one.day, one.nights)
        left = [p for p in problem.left if (p.presence.last_day, p.presence.last_night) == moment]
        joined = [
            person
            for person in problem.roster
            if person.presence.place_id is not None
            and (person.presence.first_day - 1, person.presence.first_night - 1) == moment
        ]
        yield SettledAnswer(
            day=one.day,
            after_night=one.after_night,
            changes=[
                PlacedUnitsAnswer(place=c.place_id, unit_id=c.unit_id, count=c.count)
                for c in one.changes
            ],
            burnt=[BurntAnswer(cook_group=group, fuel_ml=ml) for group, ml in one.burnt_ml],
            left=[_person_at(person) for person in left],
            joined=[_person_at(person) for person in joined],
            sleds_lost=[s.sled_id for s in problem.sleds if s.last_day == one.day],
        )


def _person_at(person: Person) -> PersonAtAnswer:
    return PersonAtAnswer(person_id=person.person_id, place=person.presence.place_id or "")


def _say(rest: Rest, advice: Advice | None, changes: tuple[ChangedLoad, ...]) -> Iterator[str]:
    """Sentences that can be acted on, the most urgent first."""
    if advice is None:
        yield from _refusal(rest)
        return
    now = [w for w in advice.waits if w.day == min(x.day for x in advice.waits)]
    if now:
        yield waiting_words(now)
    move = advice.next_move
    if move is not None:
        yield (
            f"Next, on day {move.day}: {' to '.join(move.way)}. The heaviest load of that day is "
            f"{kilograms(move.load_g):.1f} kg in pack and sled ({move.person_id})."
        )
    if advice.summit_day is not None and advice.last_summit_day is not None:
        yield (
            f"The summit is planned for day {advice.summit_day}; the last day on which it can be "
            f"tried with this food and fuel is day {advice.last_summit_day}."
        )
    if rest.is_unchanged:
        yield "The plan stands as it is."
    else:
        people = len({change.person_id for change in changes})
        yield f"{len(changes)} loads of {people} people change." if changes else "No load changes."
    for one in rest.spent:
        yield (
            f"Used up: {one.nights} of {one.nights + one.left} nights of the {one.reserve.kind} "
            f"reserve at {one.reserve.place_id}, {one.why}."
        )
    for step in rest.let_go:
        yield f"Let go: {step.rule_id or f'{step.kind} reserve'}, because {step.reason}."


def _refusal(rest: Rest) -> Iterator[str]:
    """Why there is no plan, what the leader may let go, and who decides."""
    if isinstance(rest.outcome, Infeasible):
        yield "No plan for the rest keeps every rule. The first reason stands below."
        for conflict in rest.outcome.conflicts[:1]:
            yield conflict.message
            yield from _may_be_let_go(rest.problem, conflict.rule_id)
    else:
        yield "No plan for the rest was found in time. That does not say that there is none."
    yield "Decide on the spot: wait, go down, or call for help."


def _may_be_let_go(problem: Problem, rule_id: str) -> Iterator[str]:
    """What the leader may send where a rule is not firm."""
    if rule_id == "reserves_held":
        yield (
            "The leader may decide to use up a reserve: send its kind in `letting_go`, with the "
            "reason."
        )
    elif problem.must_keep(rule_id) and not rule(rule_id).firm:
        yield (
            f"The leader may decide to go on without this rule: send {rule_id} in `letting_go`, "
            "with the reason."
        )


def _next_move(advice: Advice) -> NextMoveAnswer | None:
    move = advice.next_move
    if move is None:
        return None
    return NextMoveAnswer(
        day=move.day,
        from_=move.from_place,
        to=move.to_place,
        person_id=move.person_id,
        load_kg=kilograms(move.load_g),
        load_fraction=share(move.fraction),
    )


def _wait(wait: Wait) -> WaitAnswer:
    return WaitAnswer(
        day=wait.day,
        place=wait.place_id,
        cook_group=wait.cook_group_id,
        people=wait.people,
        sets=wait.sets,
        fuel_l=litres(wait.fuel_ml),
        fuel_a_night_l=litres(wait.fuel_a_night_ml),
        until_bare=_nights(wait.until_bare),
        until_turn_round=_nights(wait.until_turn_round),
        within_plan=_nights(wait.within_plan),
    )


def _nights(nights: Nights) -> NightsAnswer:
    return NightsAnswer(nights=nights.nights, limit=nights.limit)


def _change(change: ChangedLoad) -> ChangedLoadAnswer:
    return ChangedLoadAnswer(
        day=change.day,
        step=change.step,
        from_=change.from_place,
        to=change.to_place,
        person_id=change.person_id,
        more=[UnitCountAnswer(unit_id=unit, count=count) for unit, count in change.more],
        fewer=[UnitCountAnswer(unit_id=unit, count=count) for unit, count in change.fewer],
        new=change.new,
    )
