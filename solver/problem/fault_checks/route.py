"""Faults of the route: legs that join nothing, and anything that is no tree from the start."""

from __future__ import annotations

from collections import deque
from collections.abc import Iterator

from solver.errors import ProblemFault
from solver.problem.fault_checks.wording import below, duplicate_ids, listed, unknown_id
from solver.problem.problem import Problem


def leg_faults(problem: Problem) -> Iterator[ProblemFault]:
    """Ids that stand twice, unknown ends, legs that join a place with itself, bad factors."""
    route = problem.route
    place_ids = [place.place_id for place in route.places]
    yield from duplicate_ids(("route", "places"), "place_id", place_ids, "place")
    yield from duplicate_ids(("route", "legs"), "leg_id", [leg.leg_id for leg in route.legs], "leg")
    joined: dict[frozenset[str], str] = {}
    for index, leg in enumerate(route.legs):
        where = ("route", "legs", index)
        for field, end in (("from_place", leg.from_place), ("to_place", leg.to_place)):
            if end not in place_ids:
                yield unknown_id((*where, field), end, "place", place_ids)
        if leg.from_place == leg.to_place:
            yield ProblemFault(
                (*where, "to_place"),
                "joins_itself",
                f"This leg leads from {leg.from_place} to itself. Name the place that it leads to.",
            )
        ends = frozenset((leg.from_place, leg.to_place))
        if ends in joined and len(ends) == 2:
            yield ProblemFault(
                where,
                "legs_doubled",
                f"Leg {joined[ends]} joins {leg.from_place} and {leg.to_place} already. "
                "Leave one of the two out.",
            )
        joined.setdefault(ends, leg.leg_id)
        for name in ("sled_factor_outbound_percent", "sled_factor_homeward_percent"):
            yield from below((*where, name), getattr(leg, name), 0, "A sled factor", "%")


def tree_faults(problem: Problem) -> Iterator[ProblemFault]:
    """Legs that point inward or close a ring, and places that no leg leads to.

    The route must have passed `leg_faults`, and the start place must be known.
    """
    route, start = problem.route, problem.start_place
    reached = {start}
    used: set[str] = set()
    queue = deque([start])
    while queue:
        here = queue.popleft()
        for index, leg in enumerate(route.legs):
            if leg.leg_id in used or here not in (leg.from_place, leg.to_place):
                continue
            used.add(leg.leg_id)
            outward = leg.from_place == here
            there = leg.to_place if outward else leg.from_place
            if there in reached:
                yield ProblemFault(
                    ("route", "legs", index),
                    "closes_a_ring",
                    f"This leg makes a second way between {here} and {there}. There must be one "
                    "way from the start to each place: leave a leg out.",
                )
                continue
            if not outward:
                yield ProblemFault(
                    ("route", "legs", index),
                    "points_inward",
                    f"This leg is written towards the start place, {start}. Write it from "
                    f"{here} to {there}.",
                )
            reached.add(there)
            queue.append(there)
    for index, place in enumerate(route.places):
        if place.place_id not in reached:
            yield ProblemFault(
                ("route", "places", index, "place_id"),
                "not_joined",
                f"No leg leads from {start} to {place.place_id}. Places that can be reached: "
                f"{listed(p.place_id for p in route.places if p.place_id in reached)}.",
            )
