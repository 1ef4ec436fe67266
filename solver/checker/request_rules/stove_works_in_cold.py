"""Stove works in cold: no night is so cold that canister gas fails, even upside down.

Where the stoves burn canister gas, for each place where people sleep, with t the canister's
temperature where given, else the night's: t >= `coldest_gas_c`. The amount is in degrees, rounded
up. Isobutane boils at -12 degC at sea level, so people turn to liquid fuel below.

Documents: gas-in-cold.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.facts import Facts
from solver.checker.queries.cold_fuel import degrees_up, gas_temperatures
from solver.plan import Finding

RULE = "stove_works_in_cold"


def stove_works_in_cold(facts: Facts) -> Iterator[Finding]:
    """Places too cold for canister gas."""
    coldest = facts.problem.rules.number("coldest_gas_c")
    for place, gas_c in gas_temperatures(facts):
        if gas_c < coldest:
            yield Finding(
                RULE,
                f"canister gas at {place} is as cold as {gas_c:g} degC, and fails below "
                f"{coldest:g} degC even upside down",
                degrees_up(coldest - gas_c),
                "degC",
                (("place", place),),
                ("take stoves for liquid fuel", "give how warm the canisters are kept"),
            )
