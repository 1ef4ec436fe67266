"""Faults of gear: ids, owners and places that nobody knows, masses and places that contradict."""

from __future__ import annotations

from collections.abc import Iterator

from solver.errors import ProblemFault
from solver.problem.fault_checks.wording import Path, below, unknown_id
from solver.problem.gear import Item, NeedKind, Purpose
from solver.problem.problem import Problem


def item_faults(problem: Problem) -> Iterator[ProblemFault]:
    """Everything that can be seen without the calendar."""
    people: list[str | None] = [person.person_id for person in problem.everybody]
    teams = list(dict.fromkeys(person.rope_team_id for person in problem.everybody))
    places = [place.place_id for place in problem.route.places]
    seen: set[str] = set()
    for index, item in enumerate(problem.gear):
        where: Path = ("gear", index)
        # A person who is twice on the roster has everything twice; the roster's check finds that.
        if item.unit_id in seen and people.count(item.owner_id) < 2:
            yield ProblemFault(
                (*where, "item_id"),
                "duplicate_id",
                f"There is another item {item.unit_id}. Give each its own id, or raise its count.",
            )
        seen.add(item.unit_id)
        yield from _unknown_people(problem, item, where, people)
        if item.rope_team_id is not None and item.rope_team_id not in teams:
            yield unknown_id((*where, "rope_team_id"), item.rope_team_id, "rope team", teams)
        for field in ("from_place", "up_to"):
            named = getattr(item.need, field)
            if named is not None and named not in places:
                yield unknown_id((*where, "need", field), named, "place", places)
        if item.need.kind is NeedKind.AT_PLACE and item.need.up_to is None:
            yield ProblemFault(
                (*where, "need", "up_to"),
                "missing",
                f"{item.unit_id} is needed at a place. Name the place in up_to.",
            )
        belongs = item.need.kind is NeedKind.AT_PLACE
        if item.need.may_follow and not (belongs and item.need.may_go_ahead):
            yield ProblemFault(
                (*where, "need", "may_follow"),
                "cannot_follow",
                f"{item.unit_id} may follow its people only if it belongs at a place and may go "
                "ahead. Say both, or leave this out.",
            )
        if item.purpose is Purpose.FUEL and item.need.kind is NeedKind.WORN:
            yield ProblemFault(
                (*where, "need", "kind"),
                "fuel_worn",
                f"{item.unit_id} is fuel, which nobody wears: aircraft, caches and other rules ask "
                "where it is. Let it be needed every trip, every night or at a place.",
            )
        yield from _number_faults(item, where)


def _number_faults(item: Item, where: Path) -> Iterator[ProblemFault]:
    if item.mass_g >= 1 and item.volume_ml >= 0 and item.count >= 1:
        return
    yield from below((*where, "mass_g"), item.mass_g, 1, "The mass of an item", "g")
    yield from below((*where, "volume_ml"), item.volume_ml, 0, "The volume of an item", "mL")
    yield from below((*where, "count"), item.count, 1, "The count of an item", "")


def line_faults(problem: Problem) -> Iterator[ProblemFault]:
    """Items needed from a place that they never get to. The route must be a tree."""
    for index, item in enumerate(problem.gear):
        first, last = item.need.from_place, item.need.up_to
        if first is None or last is None or problem.route.is_at_or_beyond(last, first):
            continue
        yield ProblemFault(
            ("gear", index, "need", "up_to"),
            "not_on_one_line",
            f"{item.unit_id} is needed from {first} and goes up to {last}, but {last} does not "
            f"lie beyond {first}. Swap the two or leave one out.",
        )


def _unknown_people(
    problem: Problem, item: Item, where: Path, people: list[str | None]
) -> Iterator[ProblemFault]:
    for field in ("owner_id", "keeper_id"):
        who = getattr(item, field)
        if who is not None and who not in people:
            known = (person.person_id for person in problem.roster)
            yield unknown_id((*where, field), who, "person", known)
