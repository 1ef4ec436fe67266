"""Container fill limited: no fuel container is filled so far that it cannot work or breathe.

For each kind of container for liquid fuel whose capacity is given: content_ml <=
`bottle_fill_percent` of capacity_ml for what holds `bottle_ml` at most, since that is pumped up
under a stove, and `can_fill_percent` for all larger ones. The amount is in millilitres. Gas
canisters come filled and are not judged.

Documents: fuel-to-pack, hiking-manual.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.facts import Facts
from solver.checker.queries.cold_fuel import burns_gas
from solver.plan import Finding
from solver.quantities import share_down

RULE = "container_fill_limited"


def container_fill_limited(facts: Facts) -> Iterator[Finding]:
    """Fuel that is too much for its containers."""
    if burns_gas(facts):
        return
    rules = facts.problem.rules
    for group in facts.problem.cook_groups:
        for container in group.containers:
            if container.capacity_ml is None:
                continue
            is_bottle = container.capacity_ml <= rules.whole("bottle_ml")
            percent = rules.whole("bottle_fill_percent" if is_bottle else "can_fill_percent")
            most = share_down(amount=container.capacity_ml, percent=percent)
            over = container.content_ml - most
            if over > 0:
                yield Finding(
                    RULE,
                    f"{container.unit_id} holds {container.content_ml} mL of fuel, {percent} % of "
                    f"its {container.capacity_ml} mL is the most for a "
                    f"{'bottle' if is_bottle else 'can'}",
                    over,
                    "mL",
                    (("container", container.unit_id),),
                    (f"fill it with {most} mL at most",),
                )
