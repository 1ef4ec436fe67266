"""Keepers of a draft: who has single pieces and bundles, and why somebody else does; both sides."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace

import pytest

from solver.checker import check
from solver.model.assignment.build_plan import build_plan
from solver.model.assignment.by_trip import by_trip
from solver.model.assignment.keepers import choose_keeper, keepers_of
from solver.model.formulation.build_frame import build_frame
from solver.model.formulation.frame import Frame
from solver.model.goals.named_keepers import away_from_keepers, keeper_on
from solver.model.goals.preferences import count_violated
from solver.model.goals.soft_constraints import soft_constraints
from solver.plan import ElsewhereReason, Keeper
from solver.problem import Need, NeedKind
from tests.model.frames import box, draft_of, index_of, problem_of, two_with
from tests.rules.worlds import asked_alone, item, person

UP_AND_DOWN = Need(NeedKind.AT_PLACE, up_to="c1")
WANDS = item("wand", UP_AND_DOWN, mass_g=50, count=4)
RADIOS = item("radio", mass_g=50, count=2)


def _kept(frame: Frame, *trips: dict[str, str]) -> dict[str, Keeper]:
    """The keepers of a draft by unit, the same by model and checker."""
    draft = draft_of(frame, *trips)
    kept = keepers_of(frame, draft)
    assert check(problem_of(frame), build_plan(frame, draft)).keepers == kept
    return {keeper.unit_id: keeper for keeper in kept}


def _why(keeper: Keeper) -> list[tuple[str, int, ElsewhereReason]]:
    return [(one.person_id, one.count, one.reason) for one in keeper.elsewhere]


def test_whoever_has_a_single_piece_on_all_its_trips_keeps_it() -> None:
    """The box goes up on day 1 and down on day 2 with m2: two trips, nobody else."""
    kept = _kept(two_with(box("a", 3_000)), {"m2": "a", "m1": "g1/meal*2"}, {"m2": "a"})
    assert kept == {"a": Keeper("a", "m2", False, from_day=1, to_day=2, trips=2)}


def test_of_equals_the_first_to_have_it_keeps_it() -> None:
    """m2 has the box up, m1 down; m2 keeps it, and could have had it on the way down too."""
    kept = _kept(two_with(box("a", 3_000)), {"m2": "a", "m1": "g1/meal*2"}, {"m1": "a"})
    assert kept["a"].person_id == "m2"
    assert _why(kept["a"]) == [("m1", 1, ElsewhereReason.OTHER)]


def test_a_bundle_has_one_keeper_and_spread_kit_none() -> None:
    """Three of four wands are with m1 on both trips; radios are spread on purpose."""
    up = {"m1": "wand*3 radio", "m2": "wand radio lead g1/meal*2"}
    down = {"m1": "wand*3 radio", "m2": "wand radio lead"}
    kept = _kept(two_with(WANDS, RADIOS, box("lead", 2_000)), up, down)
    assert list(kept) == ["wand", "lead"]
    assert kept["wand"].person_id == "m1"
    assert _why(kept["wand"]) == [("m2", 1, ElsewhereReason.OTHER)] * 2


def test_a_keeper_whose_load_would_pass_the_peak_does_not_have_it() -> None:
    """With the box too, the keeper of the ballast would carry more than anybody does."""
    frame = two_with(replace(box("a", 3_000), keeper_id="m1"), box("b", 8_000))
    up = {"m1": "b", "m2": "a g1/meal*2"}
    assert _why(_kept(frame, up, {"m1": "a", "m2": "b"})["a"]) == [("m2", 1, ElsewhereReason.LOAD)]


def test_a_keeper_without_room_does_not_have_it() -> None:
    """The keeper's pack holds 11 L with what may be outside; down and box are 12 L."""
    people = (person("m1", pack_volume_ml=10_000), person("m2", pack_volume_ml=50_000))
    frame = two_with(
        replace(box("a", 100, volume_ml=6_000), keeper_id="m1"),
        box("down", 100, volume_ml=6_000),
        box("lead", 8_000),
        people=people,
    )
    loads = {"m1": "down", "m2": "a lead"}
    kept = _kept(frame, {**loads, "m2": "a lead g1/meal*2"}, loads)
    assert _why(kept["a"])[1] == ("m2", 1, ElsewhereReason.VOLUME)


def test_the_request_names_a_keeper_and_the_preference_counts_what_others_have() -> None:
    """The box of m1 rides down with m2: one broken preference, by model and checker."""
    plain = two_with(replace(box("a", 3_000), keeper_id="m1"))
    frame = build_frame(asked_alone(problem_of(plain), "keeper_has_it"))
    draft = draft_of(frame, {"m1": "a", "m2": "g1/meal*2"}, {"m2": "a"})
    assert keeper_on(frame, index_of(frame, "a"), 0) == "m1"
    held = by_trip(frame, draft)
    assert [away_from_keepers(frame, trip, held[trip]) for trip in (0, 1)] == [0, 1]
    assert count_violated(frame, draft, soft_constraints(frame)) == 1
    report = check(problem_of(frame), build_plan(frame, draft))
    assert dict(report.goals)["preferences"] == 1


@pytest.mark.parametrize(
    ("riders", "keeper"),
    [
        ({0: {"m1": 1}, 1: {"m2": 1}, 2: {"m2": 1}}, "m2"),
        ({0: {"m2": 1}, 1: {"m1": 1}}, "m2"),
        ({0: {"m2": 1, "m1": 1}}, "m1"),
    ],
    ids=["most", "first", "roster"],
)
def test_the_keeper_is_chosen_by_units_then_time_then_roster(
    riders: dict[int, dict[str, int]], keeper: str
) -> None:
    """Most units over all trips, then the first trip, then the order of the roster."""
    counted = {trip: Counter(its) for trip, its in riders.items()}
    assert choose_keeper(WANDS, counted, ["m1", "m2"]) == keeper
