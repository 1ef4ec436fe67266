"""A clash: found by the relaxation, confirmed on the whole problem, and told with its numbers."""

from __future__ import annotations

from dataclasses import replace

from solver.model.formulation.build_frame import build_frame
from solver.model.formulation.frame import Frame
from solver.model.infeasible import nearest
from solver.model.infeasible.any_plan import any_plan
from solver.model.infeasible.blamed_rows import BlameSearch
from solver.model.infeasible.cap_amounts import PROBE, CapAmounts, growth_of
from solver.model.infeasible.clash import find_clash, frame_of
from solver.model.infeasible.clash_words import reaches_of, tell_clash
from solver.model.infeasible.nearest import nearest_draft
from solver.model.infeasible.statements import STRUCTURE, statements_of
from solver.model.inquiry import Inquiry
from solver.model.rules import build_rows
from solver.problem import Problem
from tests.questions.worlds import LIMITS, own_kits, shared, watch


def frame(problem: Problem) -> Frame:
    """The rows of a problem."""
    return build_frame(problem)


def raised(problem: Problem, who: str, more: int) -> Problem:
    """A problem with a larger pack cap of one person."""
    return replace(
        problem,
        roster=tuple(
            replace(p, caps=replace(p.caps, pack_g=p.caps.pack_g + more))
            if p.person_id == who
            else p
            for p in problem.roster
        ),
    )


def test_statements_hold_every_row_but_the_structure_once():
    """Grouped or not, rows are the same."""
    built = frame(own_kits(5_000, 5_000))
    rows = build_rows(built.world)
    grouped = [row for one in statements_of(built.world, rows) for row in one.rows]
    assert sorted(map(repr, grouped)) == sorted(
        repr(row) for row in rows if not isinstance(row, STRUCTURE)
    )


def test_all_statements_together_are_the_whole_problem():
    """A frame of every statement allows what the problem's own frame allows."""
    built = frame(own_kits(5_000, 5_000))
    rows = build_rows(built.world)
    whole = frame_of(built.world, rows, statements_of(built.world, rows))
    assert whole.allowed_trips == built.allowed_trips
    assert whole.load_rows == built.load_rows


def test_proofs_lean_on_one_person_after_the_other():
    """Of two kits that are both too heavy each has a proof of its own, and there is no third."""
    search = BlameSearch(frame(own_kits(11_500, 12_500, 5_000)), watch())
    people = []
    while (blamed := search.next_blamed(few=True)) is not None:
        people.append({row.person_id for row in blamed.caps})
    assert set(map(frozenset, people)) == {frozenset({"m1"}), frozenset({"m2"})}


def test_nothing_is_blamed_where_there_is_a_plan():
    """Light kits give no proof and no clash."""
    built = frame(own_kits(5_000, 5_000))
    assert BlameSearch(built, watch()).next_blamed(few=True) is None
    assert find_clash(built, LIMITS, watch()) is None


def test_a_clash_has_no_plan_and_one_without_each_member():
    """The rows of the clash have no plan; left out one by one, each brings a plan."""
    built = frame(shared(22_000))
    clash = find_clash(built, LIMITS, watch())
    assert clash is not None
    rows = build_rows(built.world)
    assert any_plan(frame_of(built.world, rows, clash.statements), LIMITS, watch()).infeasible
    for left in clash.statements:
        others = [one for one in clash.statements if one != left]
        assert any_plan(frame_of(built.world, rows, others), LIMITS, watch()).draft is not None
    assert clash.needed == (True,) * len(clash.statements)


def test_a_clash_is_told_with_its_numbers():
    """Two packs for 10 kg each and 22 boxes: 20.0 kg in all, 22.0 kg of boxes and 40 g of food."""
    built = frame(shared(22_000))
    clash = find_clash(built, LIMITS, watch())
    assert clash is not None
    cap = tell_clash(built.world, clash)[0]
    assert "the packs of m1 and m2 may weigh 20.0 kg in all" in cap.message
    assert "comes to 22.1 kg" in cap.message
    assert (cap.amount, cap.unit) == (2_040, "g")


def test_further_proofs_say_which_things_and_legs_they_lean_on():
    """The second kit's proof names that kit and not the first."""
    built = frame(own_kits(11_500, 12_500))
    clash = find_clash(built, LIMITS, watch())
    assert clash is not None
    first = {built.world.cargo[c].unit_id for one in clash.statements for c in one.cargoes}
    second = {"m1/kit", "m2/kit"} - first
    reaches = reaches_of(built.world, clash)
    assert any(reach.unit_ids >= second for reach in reaches)
    assert all(reach.ends for reach in reaches)


def test_the_least_growth_of_a_cap_is_what_is_over():
    """1.5 kg for one kit that is 1.5 kg over, none for another's cap; together both of two."""
    problem = own_kits(11_500, 5_000)
    built = frame(problem)
    growths = [growth_of(built, raised(problem, who, PROBE)) for who in ("m1", "m2")]
    amounts = CapAmounts(built, growths)
    assert [amounts.least(number) for number in (0, 1)] == [(1_500,), None]
    both = own_kits(11_500, 12_500)
    built = frame(both)
    growths = [growth_of(built, raised(both, who, PROBE)) for who in ("m1", "m2")]
    amounts = CapAmounts(built, growths)
    assert [amounts.least(0), amounts.least(1), amounts.least(0, 1)] == [None, None, (1_500, 2_540)]


def test_the_nearest_draft_passes_the_caps_by_what_is_over():
    """The nearest draft of two boxes too many has loads of 22 kg where 20 may be."""
    built = frame(shared(22_000))
    found = nearest_draft(built, LIMITS, watch())
    assert found is not None
    wide, draft = found
    more = {
        one.cap - other.cap
        for rows, others in zip(wide.load_rows, built.load_rows, strict=True)
        for one, other in zip(rows, others, strict=True)
    }
    assert 0 in more
    assert max(more) == 2_040
    assert sum(units for (_, trip, _), units in draft.carried.items() if trip == 0) == 22 + 4


def test_an_inquiry_answers_each_question():
    """Any plan, its bound, and that there is none."""
    inquiry = Inquiry.of(shared(16_000), LIMITS)
    assert inquiry.first_plan(watch()).plan is not None
    assert inquiry.bound(10.0) == 8_020
    assert Inquiry.of(shared(22_000), LIMITS).first_plan(watch()).infeasible
    assert Inquiry.of(shared(22_000), LIMITS).bound(10.0) is None


def test_the_nearest_draft_takes_no_more_time_than_there_is(monkeypatch):
    """With 0.3 s left no question to the relaxation may take longer, and with 60 s none over 5."""
    given = []
    least = nearest.least_excess

    def seen(relaxation, *, seconds):
        given.append(seconds)
        return least(relaxation, seconds=seconds)

    monkeypatch.setattr(nearest, "least_excess", seen)
    for seconds in (0.3, 60.0):
        nearest_draft(frame(shared(22_000)), LIMITS, watch(seconds))
    assert given == [0.3, 5.0]
