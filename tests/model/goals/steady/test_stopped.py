"""What is dealt out when a stop or the clock ends it: nothing that was found is lost."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from functools import cache

import pytest

from solver.model.assignment.by_trip import by_trip
from solver.model.assignment.draft import Draft
from solver.model.assignment.load_fractions import peak_of
from solver.model.formulation.build_frame import build_frame
from solver.model.formulation.frame import Frame
from solver.model.formulation.redundant_losses import without_redundant_losses
from solver.model.goals import hard_days, swaps
from solver.model.goals.goal import SearchState, SearchTools
from solver.model.goals.preferences import count_violated
from solver.model.goals.soft_constraints import soft_constraints
from solver.model.goals.steady import deal_out as dealing
from solver.model.goals.steady.costs import Prices
from solver.model.goals.steady.deal_out import deal_out
from solver.model.goals.steady.expedition import read_expedition
from solver.model.goals.steady.paths import better_paths
from solver.model.goals.swap_counts import weighted_swaps
from solver.model.search import search
from solver.model.work import Work
from solver.outcome import Limits
from solver.progress import Watch
from tests.benchmarks.instances import expedition, size_named

WALL_SECONDS = 1_000.0


@dataclass
class Met:
    """What the goal is asked to improve, taken out of a search."""

    frame: Frame
    state: SearchState
    tools: SearchTools
    quick: Draft = field(init=False)

    def __post_init__(self) -> None:
        """Read the quick draft."""
        expedition = read_expedition(
            self.frame, self.state.draft, soft_constraints(self.frame), self.state.trip_limits
        )
        better_paths(expedition, Prices(), lambda: False)
        self.quick = expedition.draft()

    def broken(self, draft: Draft) -> int:
        """Preferences that a draft breaks."""
        return count_violated(self.frame, draft, soft_constraints(self.frame))


@cache
def met() -> Met:
    """A small expedition as the search hands it to the goal of swaps."""
    frame = without_redundant_losses(build_frame(expedition(size_named("small"), 1)))
    found: list[Met] = []

    def keep(state: SearchState, tools: SearchTools) -> SearchState:
        found.append(Met(frame, state, tools))
        return state

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(swaps, "improve", keep)
        search(frame, Limits(workers=1), Watch(WALL_SECONDS, steady_seconds=1.0))
    return found[0]


def improved_when(
    monkeypatch: pytest.MonkeyPatch, jump: str, to: float, *, calls: int = 1
) -> tuple[Draft, Watch]:
    """The goal's draft where the clock jumps as some part of dealing out begins for the n-th time.

    Work is plenty, so only the clock ends anything.
    """
    clock, count = [0.0], [0]
    watch = Watch(WALL_SECONDS, now=lambda: clock[0], steady_seconds=10.0)
    watch.start()
    part: Callable[..., object] = getattr(dealing, jump)

    def late(*args: object, **options: object) -> object:
        count[0] += 1
        if count[0] == calls:
            clock[0] = to
        return part(*args, **options)

    monkeypatch.setattr(dealing, jump, late)
    one = met()
    tools = SearchTools(one.tools.relaxation, one.tools.relaxed, one.tools.limits, watch)
    return swaps.improve(one.state, tools).draft, watch


def test_pairs_on_full_trips_leave_time_for_all_other_trips(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """The clock stands at six tenths as they begin: they end, and the others are dealt out whole.

    The answer says that the clock took part, since on another machine it might not have.
    """
    one = met()
    draft, watch = improved_when(monkeypatch, "deal_pairs", 0.6 * WALL_SECONDS)
    assert watch.clock_ended
    without_pairs = deal_out(
        one.frame,
        one.state.draft,
        soft_constraints(one.frame),
        one.state.trip_limits,
        Work(),
        pairs_over=lambda: True,
    )
    assert one.broken(draft) <= one.broken(without_pairs) < one.broken(one.quick)


@pytest.mark.parametrize("trips", [6, 10, 14])
def test_a_clock_that_ends_it_midway_keeps_the_trips_that_are_dealt(
    monkeypatch: pytest.MonkeyPatch, trips: int
) -> None:
    """No more is broken than by each unit's cheapest way alone, and less where trips are dealt.

    The clock jumps as the n-th trip begins to be settled.
    """
    one = met()
    draft, watch = improved_when(monkeypatch, "settle", WALL_SECONDS + 1, calls=trips)
    assert watch.clock_ended
    assert one.broken(draft) < one.broken(one.quick) < one.broken(one.state.draft)
    assert draft.rides() == one.state.draft.rides()


def test_what_a_stop_leaves_undealt_is_as_in_the_other_draft() -> None:
    """A stop before the first window leaves all of it; each trip is whole in one of the two."""
    one = met()
    asked = (one.frame, one.state.draft, soft_constraints(one.frame), one.state.trip_limits)
    stopped = deal_out(*asked, Work(should_stop=lambda: True), otherwise=one.quick)
    assert stopped == one.quick
    answers = iter([False] * 500)
    some = deal_out(*asked, Work(should_stop=lambda: next(answers, True)), otherwise=one.quick)
    kept = [
        held == other
        for held, other in zip(by_trip(one.frame, some), by_trip(one.frame, one.quick), strict=True)
    ]
    assert any(kept)
    assert not all(kept)


def found_when_hard_days_take(monkeypatch: pytest.MonkeyPatch, seconds: float) -> Draft:
    """What the whole search finds where the goal after the peak leaves so little of the clock."""
    clock = [0.0]
    watch = Watch(WALL_SECONDS, now=lambda: clock[0], steady_seconds=10.0)

    def slow(state: SearchState, _: SearchTools) -> SearchState:
        clock[0] = seconds
        return state

    monkeypatch.setattr(hard_days, "improve", slow)
    watch.start()
    found = search(met().frame, Limits(workers=1), watch).draft
    assert watch.clock_ended
    assert found is not None
    return found


def test_goals_before_leave_time_for_sharing_out(monkeypatch: pytest.MonkeyPatch) -> None:
    """Seven tenths of the time are over: less ascent is not looked for, but loads are dealt out.

    With all of it over, they are as the peak left them.
    """
    one = met()
    late = found_when_hard_days_take(monkeypatch, WALL_SECONDS)
    in_time = found_when_hard_days_take(monkeypatch, 0.7 * WALL_SECONDS)
    assert one.broken(in_time) < one.broken(late)
    assert weighted_swaps(one.frame, in_time) < weighted_swaps(one.frame, late)
    assert peak_of(one.frame, in_time) == peak_of(one.frame, late)


def test_time_kept_for_later_is_left_again_when_it_is_given_back() -> None:
    """Of a hundred seconds ten are kept back and forty of the other ninety for later."""
    clock = [0.0]
    watch = Watch(100.0, now=lambda: clock[0])
    watch.start()
    watch.keep_back(10.0)
    watch.keep_for_later(0.4)
    assert watch.left() == pytest.approx(54.0)
    clock[0] = 60.0
    assert watch.is_over()
    watch.keep_for_later(0.0)
    assert watch.left() == pytest.approx(30.0)


def test_a_part_of_the_time_is_over_before_the_whole_is() -> None:
    """Of a hundred seconds ten are spent and ten kept back: half of eighty ends at fifty."""
    clock = [0.0]
    watch = Watch(100.0, now=lambda: clock[0], steady_seconds=10.0)
    watch.start()
    watch.keep_back(10.0)
    clock[0] = 10.0
    is_over = watch.part_over(0.5)
    clock[0] = 50.0
    assert not is_over()
    assert not watch.clock_ended
    clock[0] = 50.1
    assert is_over()
    assert watch.clock_ended
    assert not watch.is_over()
