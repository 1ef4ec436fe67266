"""Cans, bottles and canisters that hold an amount of fuel."""

from __future__ import annotations

from dataclasses import dataclass

from solver.calculators._ranges import require_within
from solver.calculators._rounding import whole_up


@dataclass(frozen=True, slots=True)
class LiquidContainer:
    """A can or bottle for liquid fuel: capacity [mL], tare [g], share that may be filled [-]."""

    name: str
    capacity_ml: float
    tare_g: float
    fill_limit: float


@dataclass(frozen=True, slots=True)
class GasCanister:
    """A sealed gas canister: gas inside [g], empty mass [g]."""

    name: str
    gas_g: float
    tare_g: float


# Masses: common practice, no source. Fill limits: pressure bottles three quarters (read), cans 0.95
# (common practice, no source).
CAN_4_L = LiquidContainer("4 L can", 4000.0, 350.0, 0.95)
CAN_1_L = LiquidContainer("1 L can", 1000.0, 130.0, 0.95)
BOTTLE_1_L = LiquidContainer("1 L pressure bottle", 1000.0, 190.0, 0.75)
CANISTER_110_G = GasCanister("110 g canister", 110.0, 100.0)
CANISTER_230_G = GasCanister("230 g canister", 230.0, 150.0)
CANISTER_450_G = GasCanister("450 g canister", 450.0, 215.0)


@dataclass(frozen=True, slots=True)
class ContainerCount:
    """Containers to take beside those already open, what is in them and what they weigh."""

    new: int
    from_open: float
    in_new: float
    spare: float
    tare_g: float
    gross_g: float


def liquid_containers(
    *,
    fuel_ml: float,
    container: LiquidContainer,
    density_kg_per_l: float,
    opened_ml: float = 0.0,
    at_least: int = 1,
) -> ContainerCount:
    """Cans or bottles for an amount of liquid fuel, open ones first [count, mL, g].

    Range: fuel 0 to 1000 L, opened 0 to 1000 L, fill limit of the container 0.3 to 0.98, density
    0.5 to 1 kg/L, at least 0 to 100; refused outside.

    Source: the volume that is not in open cans, divided by what a container may be filled with,
    rounded up; status: arithmetic. Fill limits: three quarters for pressure bottles, which need air
    to be pumped (read), 0.95 for cans (common practice, no source).

    Departs: ``at_least`` asks for more containers than the volume needs, because no single one
    should hold more than half of a camp's fuel. New ones are counted as full; ``spare`` is what
    that is more than asked for. Tare and gross are those of the new ones.

    Independent check: none was found; it is arithmetic.
    """
    require_within("fuel_ml", fuel_ml, 0.0, 1e6, "mL")
    require_within("opened_ml", opened_ml, 0.0, 1e6, "mL")
    require_within("at_least", at_least, 0, 100, "containers")
    require_within("density_kg_per_l", density_kg_per_l, 0.5, 1.0, "kg/L")
    require_within("fill_limit", container.fill_limit, 0.3, 0.98, "of the capacity")
    require_within("capacity_ml", container.capacity_ml, 50.0, 25_000.0, "mL")
    from_open = min(fuel_ml, opened_ml)
    missing = fuel_ml - from_open
    filled_ml = container.capacity_ml * container.fill_limit
    new = max(whole_up(missing / filled_ml), at_least) if missing > 0 else 0
    tare = new * container.tare_g
    return ContainerCount(
        new=new,
        from_open=from_open,
        in_new=new * filled_ml,
        spare=new * filled_ml - missing,
        tare_g=tare,
        gross_g=tare + new * filled_ml * density_kg_per_l,
    )


def gas_canisters(
    *, gas_g: float, canister: GasCanister, usable_fraction: float = 1.0, opened_g: float = 0.0
) -> ContainerCount:
    """Canisters for a mass of gas, with what cold leaves inside counted as lost [count, g].

    Range: gas 0 to 1000 kg, opened 0 to 1000 kg, usable fraction 0.05 to 1; refused outside. Below
    0.05 a canister is no source of fuel: take liquid fuel.

    Source: the gas that is not in open canisters, divided by what a canister gives before it stops
    feeding (``canister_gas.fraction_left_when_feed_stops``), rounded up; status: arithmetic.

    Departs: opened canisters are taken to give only the same usable fraction of what is in them.

    Independent check: none was found; it is arithmetic.
    """
    require_within("gas_g", gas_g, 0.0, 1e6, "g")
    require_within("opened_g", opened_g, 0.0, 1e6, "g")
    require_within("gas_g of the canister", canister.gas_g, 10.0, 5000.0, "g")
    hint = "Such a canister hardly feeds: warm it, or take liquid fuel."
    require_within("usable_fraction", usable_fraction, 0.05, 1.0, "of the gas", hint)
    from_open = min(gas_g, opened_g * usable_fraction)
    missing = gas_g - from_open
    new = whole_up(missing / (canister.gas_g * usable_fraction))
    tare = new * canister.tare_g
    return ContainerCount(
        new=new,
        from_open=from_open,
        in_new=new * canister.gas_g,
        spare=new * canister.gas_g * usable_fraction - missing,
        tare_g=tare,
        gross_g=tare + new * canister.gas_g,
    )
