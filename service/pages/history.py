"""The sheet of re-plans: which plans there were, what was counted, what changes, room for more.

Where a report after the expedition is stored, the sheet ends with it, since nothing comes after.
"""

from __future__ import annotations

from service.pages.blocks import Block, Lines, Section, table
from service.pages.facts import Json, LineEntry, PlanFacts
from service.reports.paper.things import counts_of

_BLANK_ROWS = 6
_PLANS = ("Plan", "Counted", "What it said")
_CHANGED = ("#Day", "Way", "@Who", "Takes as well", "Leaves", "_Done")
_REPORTS = ("Stored", "What was used")
_TO_COME = ("~No.", "_Day", "=What was counted", "=What was lost", "_Code of the new plan")


def history(facts: PlanFacts) -> Section:
    """The line of the plan, what the last re-plan says, and blank rows for what comes."""
    blocks: list[Block] = []
    rest = facts.outcome["rest"]
    if rest is not None:
        blocks.append(Lines(tuple(rest["say"])))
    if len(facts.line) > 1:
        plans = [_entry(facts, entry) for entry in facts.line]
        blocks.append(table("Plans until now, the first one on top", _PLANS, plans))
    if rest is not None:
        changes = [_change(facts, change) for change in rest["changes"]]
        blocks.append(table("Loads that differ from the plan before", _CHANGED, changes))
        blocks.append(table("Let go or used up", ("What", "Why"), _let_go(facts, rest)))
    if facts.reports:
        blocks.append(table("After the expedition, the newest first", _REPORTS, _reports(facts)))
        return Section("history", "History of re-plans", tuple(blocks))
    numbers = [(str(number),) for number in range(1, _BLANK_ROWS + 1)]
    blocks.append(table("Re-plans from here on", _TO_COME, numbers))
    return Section("history", "History of re-plans", tuple(blocks))


def _reports(facts: PlanFacts) -> list[tuple[str, str]]:
    return [(one.stored, " ".join(one.say)) for one in facts.reports]


def _entry(facts: PlanFacts, entry: LineEntry) -> tuple[str, ...]:
    counted = "at the start" if entry.counted is None else entry.counted
    said = " ".join(entry.say) or "–"
    here = " (this plan)" if entry.plan_id == facts.plan_id else ""
    return f"{entry.plan_id}{here}", counted, said


def _change(facts: PlanFacts, change: Json) -> tuple[str, ...]:
    new = " (new)" if change["new"] else ""
    return (
        str(change["day"]),
        facts.way(change) + new,
        facts.person(change["person_id"]),
        _units(facts, change["more"]),
        _units(facts, change["fewer"]),
    )


def _units(facts: PlanFacts, units: list[Json]) -> str:
    """Units in words, by name."""
    return facts.things.listed(counts_of(units)) or "–"


def _let_go(facts: PlanFacts, rest: Json) -> list[tuple[str, str]]:
    spent = [
        (
            f"{one['nights']} nights of the {one['kind']} reserve at {facts.place(one['place'])}",
            one["why"],
        )
        for one in rest["spent"]
    ]
    gone = [
        (f"rule {str(one['rule_id']).replace('_', ' ')}", one["reason"])
        for one in rest["let_go"]
        if one["rule_id"]
    ]
    return spent + gone
