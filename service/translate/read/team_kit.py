"""Kit that each rope team has of its own: ropes, rescue kit and medical kit."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from api_schema.gear import ItemRequest
from api_schema.plan_request import PlanRequest
from api_schema.roster import PersonRequest
from service.translate.read import defaults
from service.translate.read.notes import Notes
from solver.problem import Item
from solver.rulebook import SourceStatus

_KIT = ("rope", "rescue_kit", "medical_kit")


def team_of_person(person: PersonRequest) -> str:
    """The rope team that somebody belongs to."""
    return person.rope_team or defaults.ROPE_TEAM_ID


def teams_with_kit(
    request: PlanRequest, item: ItemRequest, pointer: str, notes: Notes
) -> tuple[str, ...]:
    """The rope teams that each have their own of some kit, which is noted; none where not so.

    It is so of kit needed on every trip that is said to be nobody's, with enough for all teams.
    """
    if item.purpose not in _KIT or item.needed != "every_trip" or item.rope_team is not None:
        return ()
    teams = tuple(dict.fromkeys(team_of_person(p) for p in request.roster))
    count = item.count - sum(item.left_at.values())
    if not 1 < len(teams) <= count:
        return ()
    notes.assume(
        f"{pointer}/rope_team",
        "Kit that each rope team has of its own, since there is enough for all of them.",
        f"{count // len(teams)} of {item.item_id} for each of {', '.join(teams)}",
        SourceStatus.PRACTICE,
    )
    return teams


def kit_by_team(
    item: Item, teams: tuple[str, ...], up_to: str | None, keeper_team: str | None = None
) -> Iterator[Item]:
    """An item as each rope team's own, as many for each; what is over is anybody's.

    Only what belongs to the `keeper_team` has the keeper.
    """
    if not teams or item.need.up_to != up_to or item.count < len(teams):
        yield item
        return
    each, over = divmod(item.count, len(teams))
    for team in teams:
        yield replace(
            item,
            item_id=f"{item.item_id}.{team}",
            name=f"{item.name} ({team})" if item.name else "",
            count=each,
            rope_team_id=team,
            keeper_id=item.keeper_id if keeper_team in (None, team) else None,
        )
    if over:
        yield replace(item, count=over)
