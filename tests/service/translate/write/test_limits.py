"""What binds a plan, on the wire: shares, kilograms, verdicts."""

from __future__ import annotations

from service.translate.write.limits import write_limits
from solver.diagnosis import ChangeKind
from solver.questions.worth import Binding, Step, Verdict, Worth


def test_shares_and_kilograms_are_as_everywhere_on_the_wire():
    """Grams become kilograms, 1/10,000 become shares, and the cheapest step is named."""
    step = Step(
        ChangeKind.CAP,
        "raise the pack cap of m1 by 1.0 kg",
        (("person", "m1"),),
        1_000,
        "g",
        Verdict.LOWERS,
        peak=8_182,
        bound=8_182,
        gain=818,
        proven=True,
    )
    binding = Binding("pack_cap_held", "m1", (("day", 1),), 9_000, 10_000, 9_000)
    worth = Worth(9_000, 9_000, (binding,), (step,), step, nothing_lowers=False, not_tried=3)
    told = write_limits(worth, plan_id="plan_x", cautions=[])
    assert (told.peak, told.bound, told.not_tried) == (0.9, 0.9, 3)
    assert (told.binding[0].load_kg, told.binding[0].cap_kg) == (9.0, 10.0)
    (first,) = told.steps
    assert (first.verdict, first.peak, first.gain, first.more_than_the_gap) == (
        "lowers",
        0.8182,
        0.0818,
        True,
    )
    assert told.nothing_short_of == "raise the pack cap of m1 by 1.0 kg"
    assert first.reason is None


def test_a_step_without_a_plan_says_why():
    """The reason of a step that allows no plan is told with it."""
    step = Step(ChangeKind.PERSON, "x", (), None, "", Verdict.NO_PLAN, reason="1 place short")
    worth = Worth(9_000, 9_000, (), (step,), None, nothing_lowers=True, not_tried=0)
    (told,) = write_limits(worth, plan_id="plan_x", cautions=[]).steps
    assert (told.verdict, told.reason) == ("no_plan", "1 place short")
