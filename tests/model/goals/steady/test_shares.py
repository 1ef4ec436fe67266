"""People's shares of a trip, and what weighs on whoever has the least cap."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from solver.model.formulation.build_frame import build_frame
from solver.model.goals.soft_constraints import soft_constraints
from solver.model.goals.steady.expedition import read_expedition
from solver.model.goals.steady.shares import above_others, least_share, shares_of
from solver.model.goals.steady.spare import spare_the_weakest, weighs_on_weakest
from solver.problem import Sled
from tests.model.frames import box, draft_of
from tests.rules.worlds import person, world

STRONG = person("m1", pack_g=20_000, sled_g=40_000)
WEAK = replace(person("m2", pack_g=10_000, sled_g=40_000))
FRAME = build_frame(
    world(
        "strip-c1 c1-strip",
        people=(STRONG, WEAK),
        gear=(box("a", 4_000), box("b", 4_000)),
        sleds=tuple(Sled(f"s{n}", f"m{n}", 0, 60_000, 90_000) for n in (1, 2)),
        sled_leg_factors=(100, 100),
    )
)


def _first_trip(there, back):
    """The way there of a draft, and all of it."""
    draft = draft_of(FRAME, there, back)
    read = read_expedition(FRAME, draft, soft_constraints(FRAME), [10_000, 10_000])
    return read.trips[0], read


PACKS = {"m1": "a g1/meal*2", "m2": "b"}
SLEDS = {"m1": "a g1/meal*2", "sled/s2": "b"}


def test_a_share_is_the_largest_of_all_that_somebody_has() -> None:
    """4 kg are two fifths of a pack of 10 kg, and a tenth of a sled of 40 kg."""
    packs, sleds = (shares_of(_first_trip(one, {"m1": "a b"})[0]) for one in (PACKS, SLEDS))
    assert packs[1] == pytest.approx(4_000)
    assert sleds[1] == pytest.approx(1_000)
    assert packs[0] == sleds[0] == pytest.approx(4_020 / 20_000 * 10_000)


def test_alike_costs_go_to_whoever_has_the_smallest_share() -> None:
    """Of two carriers without cost the one of the person with less; a cheaper one comes first."""
    trip, _ = _first_trip(PACKS, {"m1": "a b"})
    of_weak, of_strong = (trip.load.carriers.index(who) for who in ("m2", "m1"))
    cost = np.full(len(trip.person), 5.0)
    cost[[of_weak, of_strong]] = 0.0
    assert least_share(trip, cost) == of_strong
    cost[of_weak] = -1.0
    assert least_share(trip, cost) == of_weak


def test_the_weakest_are_above_others_by_their_mean_over_all_trips() -> None:
    """40 % there and nothing back, beside 20.1 % there and 40 % back: 10 % are below the mean."""
    _, read = _first_trip(PACKS, {"m1": "a b"})
    assert above_others(read) == pytest.approx(2_000 - (4_000 + 0 + 2_010 + 4_000) / 4)


def test_what_weighs_on_the_weakest_is_in_their_fullest_row() -> None:
    """With 4 kg in the pack that is the pack, with 4 kg on the sled the sled alone."""
    for loads, where in ((PACKS, "m2"), (SLEDS, "sled/s2")):
        trip, _ = _first_trip(loads, {"m1": "a b"})
        weighs = [
            who for who, one in zip(trip.load.carriers, weighs_on_weakest(trip), strict=True) if one
        ]
        assert weighs == [where]


def test_the_weakest_get_no_more_on_a_trip_that_spares_them() -> None:
    """Their pack and sled may come to a tenth, as the sled has already; others may take all."""
    trip, _ = _first_trip(SLEDS, {"m1": "a b"})
    before = trip.most.copy()
    spare_the_weakest(trip)
    pack, sled = (
        trip.load.rows_of[trip.load.carriers.index(who)].tolist() for who in ("m2", "sled/s2")
    )
    counted = [row for row in {*pack, *sled} if trip.load.scale[row] > 0]
    shares = trip.most[counted] * trip.load.scale[counted]
    assert shares == pytest.approx(np.full(len(counted), 1_000))
    others = [row for row in range(len(before)) if row not in counted]
    assert (trip.most[others] == before[others]).all()
