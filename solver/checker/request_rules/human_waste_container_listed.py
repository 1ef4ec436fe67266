"""Human waste container listed: the gear has something to carry human waste in, with its capacity.

Where waste comes down and anybody sleeps out: at least one waste container is listed, and each
gives its capacity. The amount is 1 where none is listed, else how many kinds lack the capacity.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.facts import Facts
from solver.checker.queries.listed_gear import human_waste_containers
from solver.plan import Finding

RULE = "human_waste_container_listed"


def human_waste_container_listed(facts: Facts) -> Iterator[Finding]:
    """Waste containers that are missing, or whose capacity is not given."""
    if facts.problem.waste.may_be_left or not facts.timeline.nights:
        return
    listed = human_waste_containers(facts)
    unknown = [item.unit_id for item in listed if item.capacity_ml is None]
    if not listed:
        yield Finding(
            RULE,
            "no container for human waste is listed in the gear, so whether there is room for it "
            "has not been checked",
            1,
            "containers",
            (),
            ("list a waste container with its capacity",),
        )
    elif unknown:
        yield Finding(
            RULE,
            f"what {', '.join(unknown)} takes is not given, so whether there is room for all waste "
            "has not been checked",
            len(unknown),
            "containers",
            (("item", unknown[0]),),
            ("give the capacity of each waste container",),
        )
