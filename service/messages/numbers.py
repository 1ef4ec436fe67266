"""What the numbers of messages stand for: places, people, sleds, cook groups and night sets."""

from __future__ import annotations

from solver.problem import Problem


class Numbers:
    """Names of a problem in the order of the request, numbered from 1."""

    def __init__(self, problem: Problem) -> None:
        """Take the names of a problem."""
        self.problem = problem
        self.places = tuple(place.place_id for place in problem.route.places)
        self.people = tuple(person.person_id for person in problem.roster)
        self.sleds = tuple(sled.sled_id for sled in problem.sleds)
        self.cook_groups = tuple(group.cook_group_id for group in problem.cook_groups)

    def night_sets(self, cook_group_id: str) -> tuple[str, ...]:
        """The night sets of a cook group, as unit ids."""
        return tuple(
            one.unit_id for one in self.problem.night_sets if one.cook_group_id == cook_group_id
        )
