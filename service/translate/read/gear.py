"""Items of a request: shared ones, everybody's kits, parts, and those left lower down."""

from __future__ import annotations

from api_schema.plan_request import PlanRequest
from service.translate.read.notes import Notes, pointer_to
from service.translate.read.personal_items import personal_items
from service.translate.read.shared_items import shared_items
from service.translate.read.team_kit import kit_by_team, team_of_person, teams_with_kit
from solver.problem import Item


def read_gear(request: PlanRequest, notes: Notes) -> tuple[Item, ...]:
    """Shared items first, then each person's, in the order of the request."""
    gear: list[Item] = []
    notes.point(("gear",), "/gear")
    team_of = {person.person_id: team_of_person(person) for person in request.roster}
    for index, item in enumerate(request.gear):
        pointer = pointer_to("gear", index)
        teams = teams_with_kit(request, item, pointer, notes)
        for whole in shared_items(item, pointer, notes):
            for variant in kit_by_team(whole, teams, item.up_to, team_of.get(item.keeper or "")):
                notes.point(("gear", len(gear)), pointer)
                gear.append(variant)
    for index, person in enumerate(request.roster):
        for variant, pointer in personal_items(request, person, index, notes):
            notes.point(("gear", len(gear)), pointer)
            gear.append(variant)
    notes.names.update({read.unit_id: read.name for read in gear if read.name})
    return tuple(gear)
