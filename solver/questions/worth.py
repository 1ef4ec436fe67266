"""What binds a plan and what a step would be worth, as data."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from solver.diagnosis import ChangeKind, Names


class Verdict(StrEnum):
    """What is known of a step."""

    LOWERS = "lowers"
    """A plan with a lower peak was found."""

    RAISES = "raises"
    """It is proven that no plan with this step has so low a peak."""

    SAME_PROVEN = "same_proven"
    """It is proven that no plan with this step has a lower peak."""

    NONE_FOUND = "none_found"
    """No plan with a lower peak was found; there may be one."""

    NO_PLAN = "no_plan"
    """With this step there is no plan, or the request breaks a rule."""

    NOT_TRIED = "not_tried"
    """The time ended before."""


@dataclass(frozen=True, slots=True)
class Binding:
    """A cap at the peak: its rule, person and trip, and what is under it [g]."""

    rule_id: str
    person_id: str
    where: Names
    load_g: int
    cap_g: int
    fraction: int


@dataclass(frozen=True, slots=True)
class Step:
    """A change by one step that exists, and what it does to the peak [1/10,000].

    `peak` is that of the plan found, `bound` what no plan is below; None where unknown. `gain` is
    today's peak less the new one, negative where it rises. `proven` says that the gain is more than
    what today's plan may be from its best. `reason` is why there is no plan with the step.
    """

    kind: ChangeKind
    text: str
    about: Names
    amount: int | None
    unit: str
    verdict: Verdict
    peak: int | None = None
    bound: int | None = None
    gain: int | None = None
    proven: bool = False
    reason: str = ""


@dataclass(frozen=True, slots=True)
class Worth:
    """What sets the peak, and the steps: gains first, then what makes no difference.

    `nothing_short_of` is the cheapest step that lowers the peak, where all that cost less were
    judged and none does; None where that is not known or nothing lowers it.
    """

    peak: int
    peak_bound: int
    binding: tuple[Binding, ...]
    steps: tuple[Step, ...]
    nothing_short_of: Step | None
    nothing_lowers: bool
    not_tried: int
