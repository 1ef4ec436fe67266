"""The screen at a plan's own address, in whatever state the plan is."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from api_schema.plan_resource import PlanSummaryAnswer
from service.pages.facts import PlanFacts, Writer
from service.screens.frame import Screen, screen
from service.screens.links import links_of
from service.screens.skyline import skyline
from service.screens.solved import solved_part
from service.screens.unsolved import unsolved_part
from service.screens.words import moment_words, solve_words, state_words
from service.translate.read.quantities import exactly

Json = dict[str, Any]


@dataclass(frozen=True, slots=True)
class PlanSeen:
    """A plan as it is stored, with the plans of its line; `outcome` None before its end."""

    summary: PlanSummaryAnswer
    request: Json
    progress: Json | None
    outcome: Json | None
    former: tuple[str, ...]
    superseded_by: str | None
    what_if: bool = False


def plan_screen(seen: PlanSeen, *, can_print: bool) -> Screen:
    """The page of one plan."""
    summary, outcome = seen.summary, seen.outcome
    solved = outcome is not None and outcome["outcome"] == "solved"
    is_live = summary.state in ("queued", "running")
    return screen(
        "plan.html.j2",
        live=is_live,
        title=seen.request.get("title") or summary.reference or "Plan",
        plan_id=summary.plan_id,
        reference=summary.reference,
        state=summary.state,
        kind=summary.outcome_kind or summary.state,
        words=state_words(summary),
        created=moment_words(summary.created_at),
        took=solve_words(summary),
        is_live=is_live,
        progress=seen.progress,
        part=solved_part(_facts(seen)) if solved else None,
        reasons=None if outcome is None or solved else unsolved_part(outcome),
        former=seen.former,
        superseded_by=seen.superseded_by,
        what_if=seen.what_if,
        sky=skyline(_elevations(seen)),
        groups=links_of(
            summary.plan_id, solved=solved, can_print=can_print, from_day_1=not seen.former
        ),
    )


def _facts(seen: PlanSeen) -> PlanFacts:
    return PlanFacts(
        plan_id=seen.summary.plan_id,
        version=seen.summary.attempt,
        made_at=moment_words(seen.summary.finished_at),
        outcome=seen.outcome or {},
        request=seen.request,
        write=Writer("metric"),
    )


def _elevations(seen: PlanSeen) -> list[float]:
    """The elevations along the way: those of the first rope team, or from place to place."""
    by_place: dict[str, float] = {}
    for place in (seen.request.get("route") or {}).get("places", ()):
        by_place[place["place_id"]] = float(exactly(place["elevation"]))
    if seen.outcome is None or seen.outcome["outcome"] != "solved":
        return list(by_place.values())
    ways = [next(iter(day["places"].values())) for day in seen.outcome["plan"]["days"]]
    return [by_place[place] for way in ways for place in way]
