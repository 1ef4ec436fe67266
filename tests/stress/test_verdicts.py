"""Verdicts agree with what is done by hand, and with a search for a plan of the rest."""

from collections import Counter
from dataclasses import replace

import pytest

from solver.checker import check
from solver.outcome import Infeasible, Solved
from solver.problem import Change, History, ReserveKind
from solver.rest.planning import plan_rest
from solver.stress.blows import BlowKind
from solver.stress.report import Verdict
from solver.stress.struck import struck
from solver.stress.verdicts import Clock, by_arithmetic, by_planning
from tests.rest.under_way import QUICK
from tests.stress.struck_worlds import all_blows, item_of, replayed

NO_RESERVES = frozenset[ReserveKind]()
ENDLESS = Clock(lambda: 60.0, lambda: False)


def _by_hand(base, blow) -> bool:
    """Whether the plan passes once all that is lost is struck from every later load."""
    gone = {unit for _, unit, _ in blow.lost}
    problem = replace(
        base.facts.problem,
        gear=tuple(i for i in base.facts.problem.gear if i.unit_id not in gone),
        history=History(
            blow.day, changes=tuple(Change(p, unit, -count) for p, unit, count in blow.lost)
        ),
    )

    def without(stowed):
        return tuple(one for one in stowed if one.unit_id not in gone)

    trips = tuple(
        replace(
            trip,
            loads=tuple(
                replace(load, pack=without(load.pack), sled=without(load.sled))
                for load in trip.loads
            ),
        )
        if trip.day > blow.day
        else trip
        for trip in base.plan.trips
    )
    return not check(problem, replace(base.plan, trips=trips, stock=())).findings


@pytest.mark.parametrize("kind", ["tiny", "glacier"])
def test_gear_lost_whole_is_what_deleting_it_by_hand_gives(kind: str):
    """A pack or cache of gear stands exactly where the plan without its things passes the check."""
    seen = Counter[bool]()
    for seed in range(30 if kind == "tiny" else 6):
        if (base := replayed(kind, seed)) is None:
            continue
        for blow in all_blows(base, frozenset({BlowKind.PACK, BlowKind.CACHE})):
            items = [(item_of(base, unit), count) for _, unit, count in blow.lost]
            if all(item is not None and item.count == count for item, count in items):
                verdict = by_arithmetic(base, struck(base, blow), NO_RESERVES).verdict
                by_hand = _by_hand(base, blow)
                assert (verdict is Verdict.STANDS) is by_hand, (seed, blow)
                seen[by_hand] += 1
    assert seen[True] >= (3 if kind == "tiny" else 1)


@pytest.mark.parametrize("kind", ["tiny", "glacier"])
def test_a_sled_stands_exactly_where_it_is_hauled_no_more(kind: str):
    """A broken sled changes nothing after the last trip that hauls it, and does before."""
    for seed in range(20 if kind == "tiny" else 6):
        if (base := replayed(kind, seed)) is None:
            continue
        for blow in all_blows(base, frozenset({BlowKind.SLED})):
            later = any(
                blow.thing in r.trip.sled_ids for r in base.records if r.trip.day > blow.day
            )
            verdict = by_arithmetic(base, struck(base, blow), NO_RESERVES).verdict
            assert (verdict is Verdict.STANDS) is not later


@pytest.mark.parametrize("kind", ["tiny", "glacier"])
def test_arithmetic_never_contradicts_the_search(kind: str):
    """What arithmetic calls survived has a plan of the rest; what it calls *no* has none."""
    seen = Counter[Verdict]()
    for seed in range(14 if kind == "tiny" else 4):
        if (base := replayed(kind, seed)) is None:
            continue
        for blow in all_blows(base)[::3]:
            state = struck(base, blow)
            verdict = by_arithmetic(base, state, NO_RESERVES).verdict
            seen[verdict] += 1
            if verdict is Verdict.NOT_SETTLED:
                continue
            rest = plan_rest(state.problem, base.plan, QUICK, wait_nights=state.wait_nights)
            expected = Infeasible if verdict is Verdict.NO else Solved
            assert isinstance(rest.outcome, expected), (seed, blow, verdict)
    assert seen[Verdict.STANDS] >= 2
    assert seen[Verdict.NO] >= 2


def test_the_search_settles_what_arithmetic_leaves_open():
    """A plan of the rest, or the proof that there is none, comes back as a verdict."""
    seen = Counter[Verdict]()
    for seed in range(20):
        if (base := replayed("tiny", seed)) is None:
            continue
        for blow in all_blows(base)[::4]:
            state = struck(base, blow)
            if by_arithmetic(base, state, NO_RESERVES).verdict is Verdict.NOT_SETTLED:
                settled = by_planning(base, state, NO_RESERVES, 10, ENDLESS)
                seen[settled.verdict] += 1
                assert settled.why or settled.verdict is not Verdict.NO
    assert seen[Verdict.NO] >= 1
    assert seen[Verdict.AFTER_REPLAN] >= 1
    assert not seen[Verdict.NOT_SETTLED]


def test_without_time_nothing_is_settled_by_a_search():
    """A clock that is over leaves a state open, and says no verdict."""
    over = Clock(lambda: 0.0, lambda: True)
    for seed in range(20):
        base = replayed("tiny", seed)
        for blow in [] if base is None else all_blows(base):
            state = struck(base, blow)
            if by_arithmetic(base, state, NO_RESERVES).verdict is Verdict.NOT_SETTLED:
                verdict = by_planning(base, state, NO_RESERVES, 0.01, over).verdict
                assert verdict in {Verdict.NOT_SETTLED, Verdict.NO}
                return
    pytest.fail("no drawn world leaves a state open")
