"""Canister upright in cold: a canister that stands upright is not relied on in the cold.

Where the stoves burn canister gas, for each place where people sleep, with t the canister's
temperature where given, else the night's: t >= `upright_gas_c`. The amount is in degrees, rounded
up. Below it the canister is turned upside down or kept warm.

Documents: backpacking-forum.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.facts import Facts
from solver.checker.queries.cold_fuel import degrees_up, gas_temperatures
from solver.plan import Finding

RULE = "canister_upright_in_cold"


def canister_upright_in_cold(facts: Facts) -> Iterator[Finding]:
    """Places too cold for a canister that stands upright."""
    upright = facts.problem.rules.number("upright_gas_c")
    for place, gas_c in gas_temperatures(facts):
        if gas_c < upright:
            yield Finding(
                RULE,
                f"canister gas at {place} is as cold as {gas_c:g} degC: below {upright:g} degC "
                "do not rely on a canister that stands upright",
                degrees_up(upright - gas_c),
                "degC",
                (("place", place),),
                ("use stoves that take the canister upside down", "keep the canisters warm"),
            )
