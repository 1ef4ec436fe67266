"""Rules of the reserves that a request plans: how many nights, where and for whom."""

from __future__ import annotations

from solver.rulebook.kinds import Rule, RuleKind, Setting, SourceStatus

_HARD, _PRACTICE = RuleKind.HARD, SourceStatus.PRACTICE

RESERVES: tuple[Rule, ...] = (
    Rule(
        "storm_reserve_planned",
        "Each camp where a cook group sleeps has a storm reserve for the group. The reserve at "
        "the group's highest camp is larger.",
        "nights",
        _HARD,
        _PRACTICE,
        "1 night, 2 at the highest camp",
        (
            Setting("storm_nights_low", 1, "nights", 0, 10),
            Setting("storm_nights_high", 2, "nights", 0, 10),
        ),
        on_glaciers=True,
    ),
    Rule(
        "descent_reserve_planned",
        "Each camp where a cook group sleeps on its way down has a descent or storm reserve for "
        "one night more than planned.",
        "nights",
        _HARD,
        _PRACTICE,
        "1 night",
        (Setting("descent_nights", 1, "nights", 0, 10),),
        on_glaciers=True,
    ),
    Rule(
        "base_wait_planned",
        "An airstrip where the expedition starts has a reserve with which each cook group can "
        "wait for the aircraft.",
        "nights",
        _HARD,
        SourceStatus.PRINCIPLE,
        "3 nights",
        (Setting("base_wait_nights", 3, "nights", 0, 14),),
        on_glaciers=True,
    ),
)
