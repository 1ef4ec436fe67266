"""What was counted against what a followed plan has: differences, losses, fuel, sleds.

Low counts for what is eaten, burnt or needed, high for what must be carried down. More than ever
was there is a fault at its place in the state.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from api_schema.replan import CountedUnitsRequest, ReplanRequest
from service.errors import Fault
from service.translate.read import quantities
from service.translate.read.near_names import unknown_id_words
from solver.checker.ledger.facts import Facts
from solver.checker.ledger.replay import replay
from solver.checker.ledger.times import moment_of
from solver.plan import Plan
from solver.problem import Change, Problem, Sled

_MUST_BE_CARRIED = ("trash/", "human-waste/")


@dataclass(slots=True)
class Count:
    """Differences between what was counted and what the plan has, and faults of the count."""

    state: ReplanRequest
    problem: Problem
    facts: Facts
    planned: Mapping[tuple[str, str], int]
    faults: list[Fault] = field(default_factory=list)
    changes: list[Change] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)

    def change(self, place: str, unit_id: str, count: int, why: str) -> None:
        """Take down that so many more or fewer stand at a place."""
        self.changes.append(Change(place, unit_id, count))
        word = "more" if count > 0 else "fewer"
        self.notes.append(f"{place}: {abs(count)} {word} of {unit_id} than planned, {why}.")

    def known(self, pointer: str, place: str, unit_id: str) -> bool:
        """Whether place and unit are of the plan; a fault where one is not."""
        places = [one.place_id for one in self.problem.route.places]
        if place not in places:
            words = unknown_id_words("place", place, places)
            self.faults.append(Fault(f"{pointer}/place", "unknown_id", words))
        if unit_id not in self.facts.units:
            words = unknown_id_words("unit", unit_id, sorted(self.facts.units))
            self.faults.append(Fault(f"{pointer}/unit_id", "unknown_id", words))
        return place in places and unit_id in self.facts.units


def take_counts(count: Count) -> None:
    """What was counted, against what should stand there; more than ever was is a fault."""
    for index, one in enumerate(count.state.counts):
        pointer = f"/counts/{index}"
        if not count.known(pointer, one.place, one.unit_id):
            continue
        counted = _counted(one)
        if counted is None:
            words = "Give count, or low and high with low not above high."
            count.faults.append(Fault(pointer, "missing", words))
            continue
        change = counted - count.planned.get((one.place, one.unit_id), 0)
        if change:
            count.change(one.place, one.unit_id, change, "as counted")
    total: dict[str, int] = defaultdict(int)
    for (_, unit_id), planned in count.planned.items():
        total[unit_id] += planned
    for found in count.changes:
        total[found.unit_id] += found.count
    for index, one in enumerate(count.state.counts):
        ever = sum(n for (_, unit), n in count.planned.items() if unit == one.unit_id)
        if total.get(one.unit_id, 0) > ever:
            words = (
                f"With what stands elsewhere that makes {total[one.unit_id]} of {one.unit_id}, and "
                f"there are {ever}. Count again, or say where others are gone from."
            )
            count.faults.append(Fault(f"/counts/{index}", "more_than_there_is", words))


def _counted(one: CountedUnitsRequest) -> int | None:
    """The number that a count stands for: low for what is used, high for what is carried down."""
    if one.count is not None:
        return one.count if one.low is None and one.high is None else None
    if one.low is None or one.high is None or one.low > one.high:
        return None
    is_waste = one.unit_id.startswith(_MUST_BE_CARRIED) or "/empty-" in one.unit_id
    return one.high if is_waste else one.low


def take_losses(count: Count) -> None:
    """What is gone from where it stood; more than stood there is a fault."""
    gone: dict[tuple[str, str], int] = defaultdict(int)
    for change in count.changes:
        gone[change.place_id, change.unit_id] += change.count
    for index, one in enumerate(count.state.lost):
        pointer = f"/lost/{index}"
        if not count.known(pointer, one.place, one.unit_id):
            continue
        there = count.planned.get((one.place, one.unit_id), 0) + gone[one.place, one.unit_id]
        if one.count > there:
            words = f"At {one.place} there are {there} of {one.unit_id} at that moment."
            count.faults.append(Fault(f"{pointer}/count", "more_than_there_is", words))
            continue
        gone[one.place, one.unit_id] -= one.count
        count.change(one.place, one.unit_id, -one.count, "lost")


def take_with_people(count: Count) -> None:
    """What those who left took from where they were; more than stood there is a fault."""
    left = {person.person_id: person for person in count.problem.left}
    for index, one in enumerate(count.state.left):
        place = left[one.person_id].presence.place_id or count.problem.start_place
        count.notes.append(f"{one.person_id} has left from {place} with all that they own.")
        for number, units in enumerate(one.takes):
            pointer = f"/left/{index}/takes/{number}"
            if not count.known(pointer, place, units.unit_id):
                continue
            gone = sum(
                change.count
                for change in count.changes
                if (change.place_id, change.unit_id) == (place, units.unit_id)
            )
            there = count.planned.get((place, units.unit_id), 0) + gone
            if units.count > there:
                words = f"At {place} there are {there} of {units.unit_id} at that moment."
                count.faults.append(Fault(f"{pointer}/count", "more_than_there_is", words))
                continue
            count.change(place, units.unit_id, -units.count, f"taken by {one.person_id}")
    for joins in count.state.joins:
        count.notes.append(f"{joins.person.person_id} joins at {joins.place}.")


def fuel_burnt(count: Count, followed: Plan) -> tuple[tuple[str, int], ...]:
    """Fuel burnt beyond the plan by cook group [mL], from what is left of it in all."""
    groups = [group.cook_group_id for group in count.problem.cook_groups]
    burnt: list[tuple[str, int]] = []
    for index, one in enumerate(count.state.fuel_left):
        pointer = f"/fuel_left/{index}"
        if one.cook_group not in groups:
            words = unknown_id_words("cook group", one.cook_group, groups)
            count.faults.append(Fault(f"{pointer}/cook_group", "unknown_id", words))
            continue
        places = [place.place_id for place in count.problem.route.places]
        if one.place is not None and one.place not in places:
            words = unknown_id_words("place", one.place, places)
            count.faults.append(Fault(f"{pointer}/place", "unknown_id", words))
            continue
        planned_ml = _fuel_there(count, followed, one.cook_group, one.place)
        left_ml = quantities.whole_down(one.amount)
        if left_ml < planned_ml:
            burnt.append((one.cook_group, planned_ml - left_ml))
            count.notes.append(
                f"{(planned_ml - left_ml) / 1000:.2f} L more fuel burnt than planned by "
                f"{one.cook_group}."
            )
    return tuple(burnt)


def _fuel_there(count: Count, followed: Plan, group: str, place: str | None) -> int:
    """Fuel of a cook group that should be left at the moment, with the changes [mL].

    At one place, or at all together where none is named.
    """
    history, facts = count.problem.history, count.facts
    if history is None:
        return 0
    now = moment_of(history, facts.timeline)
    courses = replay(facts, followed).courses
    lost: dict[str, int] = defaultdict(int)
    for change in count.changes:
        if place in {None, change.place_id}:
            lost[change.unit_id] += change.count
    total_ml = 0
    for unit_id, unit in facts.units.items():
        if unit.cook_group_id == group:
            standing = courses[unit_id].at(now)
            there = sum(standing.values()) if place is None else standing.get(place, 0)
            there += lost[unit_id]
            each_ml = facts.open_ml.get((unit_id, history.nights), unit.content_ml)
            total_ml += there * each_ml
    return total_ml


def sleds_left(count: Count) -> tuple[Sled, ...]:
    """The sleds of the problem; one that is lost goes nowhere any more."""
    history, problem = count.problem.history, count.problem
    known = [sled.sled_id for sled in problem.sleds]
    for index, sled_id in enumerate(count.state.sleds_lost):
        if sled_id not in known:
            words = unknown_id_words("sled", sled_id, known)
            count.faults.append(Fault(f"/sleds_lost/{index}", "unknown_id", words))
    last = history.day if history is not None else 0
    gone = set(count.state.sleds_lost)
    return tuple(replace(s, last_day=last) if s.sled_id in gone else s for s in problem.sleds)
