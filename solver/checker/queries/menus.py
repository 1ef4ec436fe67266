"""Which night sets are eaten and held where: what the rules on food and fuel look at."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from solver.checker.ledger.facts import Facts
from solver.problem import NightSet, Place


@dataclass(frozen=True, slots=True)
class SetAt:
    """A night set at a place: the nights on which it is eaten there, none for a reserve."""

    night_set: NightSet
    place: Place
    days: tuple[int, ...]

    @property
    def words(self) -> str:
        """The set with its place, in words."""
        return f"{set_words(self.night_set)} at {self.place.place_id}"

    @property
    def where(self) -> tuple[tuple[str, str | int], ...]:
        """The set with its place, as (name, value) pairs."""
        return (*set_where(self.night_set), ("place", self.place.place_id))


def set_words(night_set: NightSet) -> str:
    """A night set as people speak of it."""
    return f"night set {night_set.set_id} of cook group {night_set.cook_group_id}"


def set_where(night_set: NightSet) -> tuple[tuple[str, str | int], ...]:
    """A night set as (name, value) pairs."""
    return (("cook_group", night_set.cook_group_id), ("set", night_set.set_id))


def sets_eaten(facts: Facts) -> tuple[SetAt, ...]:
    """Each night set at each place where it is eaten, in the order of the first night."""
    days: dict[tuple[str, str, str], list[int]] = {}
    for meal in facts.meals:
        key = meal.cook_group_id, meal.night_set.set_id, meal.place_id
        days.setdefault(key, []).append(meal.day)
    return tuple(
        SetAt(facts.problem.night_set(group, set_id), facts.problem.route.place(place), tuple(on))
        for (group, set_id, place), on in days.items()
    )


def sets_used(facts: Facts) -> tuple[SetAt, ...]:
    """Each night set at each place where it is eaten or held as a reserve, each pair once."""
    problem = facts.problem
    eaten = sets_eaten(facts)
    known = {(s.night_set.unit_id, s.place.place_id) for s in eaten}
    held: list[SetAt] = []
    for reserve in problem.reserves:
        night_set = problem.night_set(reserve.cook_group_id, reserve.set_id)
        key = night_set.unit_id, reserve.place_id
        if key not in known:
            known.add(key)
            held.append(SetAt(night_set, problem.route.place(reserve.place_id), ()))
    return (*eaten, *held)


def different_sets(uses: tuple[SetAt, ...]) -> Iterator[NightSet]:
    """The night sets among these, each once."""
    yield from {use.night_set.unit_id: use.night_set for use in uses}.values()
