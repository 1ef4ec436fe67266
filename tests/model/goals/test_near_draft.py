"""The first plan of a search near to a former one: soon there, near, and asked once only."""

from __future__ import annotations

from dataclasses import replace

import pytest

from solver.model.assignment.build_plan import build_plan
from solver.model.assignment.draft import Draft
from solver.model.assignment.former_loads import read_former
from solver.model.assignment.load_fractions import peak_of
from solver.model.formulation.frame import Frame
from solver.model.goals import closeness, near_draft
from solver.model.goals.near_draft import Near, first_near
from solver.model.search import search
from solver.outcome import Limits
from solver.progress import Progress, Watch
from tests.model.frames import box, draft_of, two_with
from tests.rules.worlds import person

BOXES = tuple(box(f"b{n}", 2_000 + 500 * n) for n in range(4))
BEFORE = draft_of(
    two_with(*BOXES), {"m1": "b0 b3", "m2": "b1 b2 g1/meal*2"}, {"m1": "b0 b3", "m2": "b1 b2"}
)
KNOWN = Limits(wall_seconds=10.0, workers=1, near_peak=6_000)
"""The former peak is 27.55 %; what people know is far above it."""


def _near(m1_pack_g: int = 20_000) -> Frame:
    """The frame with what m1 may carry now, near to the plan that they had."""
    caps = replace(person("m1").caps, pack_g=m1_pack_g)
    frame = two_with(*BOXES, people=(replace(person("m1"), caps=caps), person("m2")))
    return replace(frame, former=read_former(frame, build_plan(frame, BEFORE)))


def _first_of(frame: Frame, limits: Limits = KNOWN) -> Draft:
    first = first_near(frame, limits, Watch(10.0))
    assert first is not None
    return first.draft


def test_where_nothing_is_broken_the_first_plan_is_the_former_one() -> None:
    """Under the peak that people know every unit stays where it was."""
    assert _first_of(_near()) == BEFORE


def test_the_first_plan_changes_only_what_it_must() -> None:
    """m1 may carry 5 kg: one box leaves on each trip, and the peak stays within what is known."""
    frame = _near(5_000)
    draft = _first_of(frame, replace(KNOWN, near_peak=9_000))
    assert closeness.value(frame, draft) == 2
    assert peak_of(frame, draft) <= 9_045


@pytest.mark.parametrize("limits", [replace(KNOWN, near_peak=0), replace(KNOWN, near_peak=1_000)])
def test_without_a_peak_that_can_be_kept_there_is_no_first_plan(limits: Limits) -> None:
    """Where nothing is known, or no plan is so light, the search begins as ever."""
    assert first_near(_near(), limits, Watch(10.0)) is None


def test_trips_that_are_known_are_not_packed_again(monkeypatch: pytest.MonkeyPatch) -> None:
    """Under the limit of the first draft and a lower one that it keeps, no trip is asked again."""
    frame, limits = _near(5_000), replace(KNOWN, near_peak=9_000)
    first = first_near(frame, limits, Watch(10.0))
    assert first is not None
    assert frame.former is not None
    asked: list[int] = []
    packs = near_draft.closest_trip

    def counted(frame: Frame, trip: int, *rest: object, **more: object) -> object:
        asked.append(trip)
        return packs(frame, trip, *rest, **more)  # type: ignore[arg-type]

    monkeypatch.setattr(near_draft, "closest_trip", counted)
    near = Near(frame, frame.former, limits, Watch(10.0), first)
    peak = peak_of(frame, first.draft)
    rides = first.draft.rides()
    assert near.shared_out(rides, first.limit) == near.shared_out(rides, peak) == first.draft
    assert asked == []
    near.shared_out(rides, first.limit + 1)
    assert asked == [0, 1]


def _stopped_after(stage: str) -> tuple[dict[str, int | None], Draft | None]:
    """The peaks that a search told of until it was stopped after a stage, and its draft."""
    told: list[Progress] = []
    watch = Watch(20.0, tell=told.append, wish_to_stop=lambda: stage in {t.stage for t in told})
    result = search(_near(5_000), replace(KNOWN, near_peak=9_000), watch)
    return {one.stage: one.peak for one in told}, result.draft


@pytest.mark.parametrize("stage", ["first plan", "packing"])
def test_a_search_stopped_after_its_first_plan_ends_with_it(stage: str) -> None:
    """Told with its peak, it stays the answer to a stop, though others have a lower peak."""
    frame = _near(5_000)
    first = _first_of(frame, replace(KNOWN, near_peak=9_000))
    peaks, draft = _stopped_after(stage)
    assert list(peaks)[:2] == ["greedy", "first plan"]
    assert draft == first
    assert closeness.value(frame, first) == 2
    assert (peaks["greedy"], peaks["first plan"]) == (4_500, peak_of(frame, first))
    assert peaks.get("packing", 4_500) == 4_500
