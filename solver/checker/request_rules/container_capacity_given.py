"""Container capacity given: what would go into each fuel container to the brim.

For each kind of container for liquid fuel: capacity_ml is given. The amount is how many kinds lack
it, listed once; how full they are is not checked.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.facts import Facts
from solver.checker.queries.cold_fuel import burns_gas
from solver.plan import Finding

RULE = "container_capacity_given"


def container_capacity_given(facts: Facts) -> Iterator[Finding]:
    """Containers whose filling is not checked."""
    if burns_gas(facts):
        return
    names = [
        container.unit_id
        for group in facts.problem.cook_groups
        for container in group.containers
        if container.capacity_ml is None
    ]
    if names:
        yield Finding(
            RULE,
            f"how much {', '.join(names)} would hold to the brim is not given, so how full "
            "they are has not been checked",
            len(names),
            "containers",
            (("container", names[0]),),
            ("give the capacity of the containers",),
        )
