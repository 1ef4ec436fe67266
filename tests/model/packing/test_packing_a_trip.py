"""One trip as arrays: packed longest first, and lowered by moves and swaps."""

from __future__ import annotations

import numpy as np

from solver.model.formulation.spread_slack import spread_slack
from solver.model.packing.empty_trip import empty_trip
from solver.model.packing.held_trip import load_trip
from solver.model.packing.longest_first import longest_first, packed_trip
from solver.model.packing.swaps import lower_peak
from solver.model.packing.trip_load import TOO_MUCH
from tests.model.frames import box, draft_of, index_of, two_with

MASSES_G = (6_000, 5_000, 4_000, 3_000, 2_000)
FRAME = two_with(*(box(f"b{n}", mass_g) for n, mass_g in enumerate(MASSES_G)))
BOXES = {index_of(FRAME, f"b{n}"): 1 for n in range(len(MASSES_G))}
SLACK = spread_slack(FRAME, {})[0]


def test_an_empty_trip_has_its_pieces_in_nobodys_hands() -> None:
    """Five boxes, two packs: nothing is put anywhere, and each box may go in either."""
    load = empty_trip(FRAME, 0, BOXES, SLACK)
    assert sorted(load.mass.tolist(), reverse=True) == list(MASSES_G)
    assert load.carriers == ("m1", "m2")
    assert load.able.all()
    assert load.has_choice.all()
    assert (load.where == -1).all()
    assert load.peak() == 0


def test_putting_and_taking_back_leaves_the_sums_right() -> None:
    """A piece moved from one pack to the other weighs in the second alone."""
    load = empty_trip(FRAME, 0, BOXES, SLACK)
    heaviest = int(load.mass.argmax())
    load.put(heaviest, 0)
    load.put(heaviest, 1)
    assert load.load.max() == 6_000
    assert load.carriers[load.where[heaviest]] == "m2"
    assert load.peak() == 3_000


def test_longest_first_is_grahams_and_swaps_repair_it() -> None:
    """6+3+2 against 5+4 kg by longest first: swaps reach 10 against 10, half the packs' 20 kg."""
    load = packed_trip(FRAME, 0, BOXES, SLACK)
    assert load.peak() == 5_500
    assert lower_peak(load, target=5_000) == 5_000


def test_what_is_put_already_stays_where_it_is() -> None:
    """A box that sits in a pack is not moved by longest first."""
    load = empty_trip(FRAME, 0, BOXES, SLACK)
    lightest = int(load.mass.argmin())
    load.put(lightest, 0)
    assert longest_first(load)
    assert load.where[lightest] == 0
    assert (load.where >= 0).all()


def test_a_load_over_its_cap_is_too_much() -> None:
    """25 kg of boxes do not fit into packs of 10 kg, and packing says so."""
    small = two_with(*(box(f"b{n}", 9_000) for n in range(5)))
    riding = {index_of(small, f"b{n}"): 1 for n in range(5)}
    load = empty_trip(small, 0, riding, ())
    assert not longest_first(load)
    assert load.peak() == TOO_MUCH


def test_a_trip_is_loaded_as_it_is_held() -> None:
    """Read into arrays, a trip's units sit with the carriers that a draft gives them."""
    draft = draft_of(FRAME, {"m1": "b0 b1", "m2": "b2 b3 b4"}, {})
    held = {(cargo, carrier): n for (cargo, _, carrier), n in draft.carried.items()}
    load = load_trip(FRAME, 0, held, SLACK)
    assert load.held() == held
    assert np.isclose(load.levels().max(), 5_500)
