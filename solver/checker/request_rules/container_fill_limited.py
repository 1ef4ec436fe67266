"""Container fill limited: no fuel bottle is filled so far that it cannot build up pressure.

For each kind of container for liquid fuel whose capacity is told: content_ml <= `fill_percent` of
capacity_ml. The amount is in millilitres. Published guidance fills bottles to three quarters;
cans without pressure take 95 %. Gas canisters come filled and are not judged.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.cold_fuel import burns_gas
from solver.checker.facts import Facts
from solver.plan import Finding
from solver.quantities import share_down

RULE = "container_fill_limited"


def container_fill_limited(facts: Facts) -> Iterator[Finding]:
    """Fuel that is too much for its containers."""
    if burns_gas(facts):
        return
    percent = facts.problem.rules.whole("fill_percent")
    for group in facts.problem.cook_groups:
        for container in group.containers:
            if container.capacity_ml is None:
                continue
            most = share_down(amount=container.capacity_ml, percent=percent)
            over = container.content_ml - most
            if over > 0:
                yield Finding(
                    RULE,
                    f"{container.unit_id} holds {container.content_ml} mL of fuel, {percent} % of "
                    f"its {container.capacity_ml} mL is the most",
                    over,
                    "mL",
                    (("container", container.unit_id),),
                    (
                        f"fill it with {most} mL at most",
                        "for cans without pressure state fill_percent, 95 in practice",
                    ),
                )
