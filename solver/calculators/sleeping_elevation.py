"""How fast a party sleeps higher, judged by rules that can be chosen by name.

The sources disagree: 300 or 500 m a night, a rest each third or fourth night or each 1000 m, from
2500, 2750 or 3000 m upwards. So the rule is named in every answer and each of its numbers may be
replaced. This is planning arithmetic and no medical advice; a physician and the guide decide.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from solver.calculators._ranges import require_choice, require_within
from solver.calculators._rounding import whole_up

RuleName = Literal["wms", "cdc", "uiaa", "cautious"]
Kind = Literal["step", "rest_nights", "rest_gain", "first_night"]

CARRY_TOLERANCE_M = 150.0
NIGHTS_BEFORE_LONG_STEP = 2


@dataclass(frozen=True, slots=True)
class SleepingRule:
    """A rule: where it begins [m], largest step [m], rests by nights and by gain [m], its source.

    ``rest_every_nights`` n: of any n nights that follow each other above the threshold, one is no
    higher than the night before. ``rest_every_gain_m``: such a night comes before the party sleeps
    more than that much higher than it did at the last one.
    """

    name: str
    threshold_m: float
    largest_step_m: float
    rest_every_nights: float
    rest_every_gain_m: float
    first_night_at_most_m: float
    source: str


RULES: dict[str, SleepingRule] = {
    "wms": SleepingRule(
        "WMS", 3000.0, 500.0, 4, math.inf, 2800.0,
        "Luks et al., Wilderness Medical Society Clinical Practice Guidelines for the Prevention, "
        "Diagnosis, and Treatment of Acute Altitude Illness: 2024 Update; title read, wording from "
        "that of 2019 (Wilderness Environ Med 30(4S):S3-S18), memory-unverified",
    ),
    "cdc": SleepingRule(
        "CDC", 2750.0, 500.0, math.inf, 1000.0, 2750.0,
        "CDC Yellow Book, chapter on high-elevation travel; read",
    ),
    "uiaa": SleepingRule(
        "UIAA", 2500.0, 500.0, math.inf, 1000.0, math.inf,
        "UIAA Medical Commission, 300 to 500 m a night and a rest each 1000 m; quoted",
    ),
    "cautious": SleepingRule(
        "cautious", 2500.0, 300.0, 3, 1000.0, 2500.0,
        "300 m a night and a rest each 2 to 3 days above 3000 m: a medical expedition charity, "
        "read; from 2500 m and with a rest each 1000 m: ours, the strictest of all sources",
    ),
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Night:
    """Where the party slept, and the highest point it carried to on the day before that night."""

    sleeping_m: float
    highest_m: float | None = None


@dataclass(frozen=True, slots=True)
class Finding:
    """A night that is against a rule: by how much, and whether a carry and rest soften it."""

    night_index: int
    kind: Kind
    rule: str
    value: float
    allowed: float
    sentence: str
    softened: bool = False


def sleeping_rule(*, name: RuleName) -> SleepingRule:
    """A rule by its name, with its heights [m].

    Range: wms, cdc, uiaa, cautious; others refused.

    Source: Wilderness Medical Society 2024, CDC Yellow Book, UIAA Medical Commission, and the
    strictest of all; beside each rule in ``RULES``, with its status.

    Departs: where a source gives a span, the upper end of steps and the longer time between rests
    are taken, but for the cautious rule, which takes the strict ends.

    Independent check: none was found beyond the sources.
    """
    return require_choice("name", name, RULES)


def sleeping_findings(*, nights: Sequence[Night], rule: SleepingRule) -> tuple[Finding, ...]:
    """Nights that a rule would not have, in order, with the metres by which they miss it [m].

    Range: nights from -400 to 9000 m; refused outside. No night, no finding.

    Source: that of the rule handed over; ``RULES`` names those of the Wilderness Medical Society
    (2024), the CDC Yellow Book, the UIAA Medical Commission, and the strictest. A night exactly at
    the threshold is not above it.

    Departs: the whole step counts when it ends above the threshold, also the part below it. A carry
    that sleeps lower again is never a finding. It even softens a step that is too long, if the
    party has slept two nights at the lower camp and carried to within 150 m of the new one (common
    practice, no source): the finding stays and is marked.

    Independent check: none was found; the sequences that are tested come with the sources.
    """
    for night in nights:
        require_within("sleeping_m", night.sleeping_m, -400.0, 9000.0, "m")
    findings: list[Finding] = []
    if nights:
        findings += _first_night(nights[0], rule)
    rests = _RestCount(rule, nights[0].sleeping_m if nights else 0.0)
    for index in range(1, len(nights)):
        findings += _step(nights, index, rule)
        findings += rests.after(index, nights[index - 1].sleeping_m, nights[index].sleeping_m)
    return tuple(findings)


def mean_gain_m_per_night(*, nights: Sequence[Night], threshold_m: float) -> float:
    """Mean rise of the sleeping height from the threshold up to the highest night [m/night].

    Range: nights and threshold from -400 to 9000 m; refused outside. 0 where no night is above the
    threshold, or where nights above it do not rise.

    Source: the usual reading of a rate per night where terrain forces a longer step and rests make
    up for it (Luks et al., 2019 and 2024 update; memory-unverified); status: arithmetic.

    Departs: it counts from the first night at the last camp at or below the threshold, or from the
    first night of all, so that rests at that camp count; and it includes the part of a step below
    the threshold.

    Independent check: 2133 to 3048 m over three days, 305 m a day, from an expedition textbook
    (read).
    """
    require_within("threshold_m", threshold_m, -400.0, 9000.0, "m")
    heights = [night.sleeping_m for night in nights]
    for height in heights:
        require_within("sleeping_m", height, -400.0, 9000.0, "m")
    if not heights or max(heights) <= threshold_m:
        return 0.0
    top = heights.index(max(heights))
    start = max((i for i in range(top) if heights[i] <= threshold_m), default=0)
    while start > 0 and heights[start - 1] == heights[start]:
        start -= 1
    return (heights[top] - heights[start]) / (top - start) if top > start else 0.0


def nights_for_step(*, step_m: float, mean_m_per_night: float = 304.8) -> int:
    """Nights over which a step between camps must be spread to keep a mean rate [count].

    Range: step 0 to 5000 m, mean rate 100 to 1000 m; refused outside.

    Source: an expedition textbook, 1000 ft (305 m) a day on average, camps 3000 ft apart take a
    carry, a move and a rest; status: read.

    Departs: rounded up.

    Independent check: the textbook's own example: 3000 ft are 3 nights, 2000 ft are 2.
    """
    require_within("step_m", step_m, 0.0, 5000.0, "m")
    require_within("mean_m_per_night", mean_m_per_night, 100.0, 1000.0, "m")
    return whole_up(step_m / mean_m_per_night)


def _first_night(night: Night, rule: SleepingRule) -> list[Finding]:
    if night.sleeping_m <= rule.first_night_at_most_m:
        return []
    text = (
        f"The first night is at {night.sleeping_m:.0f} m; the {rule.name} rule advises against "
        f"more than {rule.first_night_at_most_m:.0f} m for people who come from low ground."
    )
    allowed = rule.first_night_at_most_m
    return [Finding(0, "first_night", rule.name, night.sleeping_m, allowed, text)]


def _step(nights: Sequence[Night], index: int, rule: SleepingRule) -> list[Finding]:
    """The finding of one step, if it is longer than the rule allows."""
    below, here = nights[index - 1].sleeping_m, nights[index].sleeping_m
    gain = here - below
    if here <= rule.threshold_m or gain <= rule.largest_step_m:
        return []
    softened = _carried_and_rested(nights, index)
    text = (
        f"Night {index + 1} is {gain:.0f} m higher than the one before; the {rule.name} rule "
        f"allows {rule.largest_step_m:.0f} m above {rule.threshold_m:.0f} m."
    )
    if softened:
        text += " The party had carried up there and slept at least two nights below."
    return [Finding(index, "step", rule.name, gain, rule.largest_step_m, text, softened=softened)]


def _carried_and_rested(nights: Sequence[Night], index: int) -> bool:
    """Whether the party slept two nights below the step and carried nearly to its top."""
    below, here = nights[index - 1].sleeping_m, nights[index].sleeping_m
    stay = []
    for night in reversed(nights[:index]):
        if night.sleeping_m != below:
            break
        stay.append(night)
    carried = max((night.highest_m for night in stay if night.highest_m is not None), default=below)
    return len(stay) >= NIGHTS_BEFORE_LONG_STEP and carried >= here - CARRY_TOLERANCE_M


class _RestCount:
    """Counts rising nights, and metres gained, since the last night without a rise."""

    def __init__(self, rule: SleepingRule, first_m: float) -> None:
        self.rule = rule
        self.rising = 0
        self.rested_at_m = first_m

    def after(self, index: int, below_m: float, here_m: float) -> list[Finding]:
        rule = self.rule
        if here_m <= below_m or here_m <= rule.threshold_m:
            self.rising, self.rested_at_m = 0, here_m
            return []
        self.rising += 1
        gain = here_m - max(self.rested_at_m, rule.threshold_m)
        found: list[Finding] = []
        if self.rising >= rule.rest_every_nights:
            text = (
                f"Night {index + 1} is number {self.rising} in a row that is higher than the one "
                f"before; the {rule.name} rule wants one rest in {rule.rest_every_nights:.0f}."
            )
            allowed = rule.rest_every_nights - 1
            found.append(Finding(index, "rest_nights", rule.name, self.rising, allowed, text))
        if gain > rule.rest_every_gain_m:
            text = (
                f"Night {index + 1} is {gain:.0f} m above the last rest; the {rule.name} rule "
                f"wants a night without a rise each {rule.rest_every_gain_m:.0f} m."
            )
            allowed = rule.rest_every_gain_m
            found.append(Finding(index, "rest_gain", rule.name, gain, allowed, text))
        return found
