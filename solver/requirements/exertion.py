"""What one trip costs a person: walking with a load on snow, and pulling a sled."""

from __future__ import annotations

from dataclasses import dataclass, replace

from solver.requirements.figures import Input
from solver.requirements.ground import Ground
from solver.requirements.loads import Loads
from solver.requirements.moving import FOOTWEAR_FACTOR, MUSCULAR_EFFICIENCY, Stretch, moving_cost
from solver.requirements.snow import Snow
from solver.requirements.surroundings import assumed

SNOW_TERRAIN_FACTOR = 1.0
FOOTWEAR = "Jones et al. 1984: 0.7 to 1 % for each 100 g of boots; from memory, unverified"


_FOOTWEAR = assumed("footwear_factor", FOOTWEAR_FACTOR, "times", FOOTWEAR)
_EFFICIENCY = assumed("muscular_efficiency", MUSCULAR_EFFICIENCY, "", "from memory")


@dataclass(frozen=True, slots=True)
class Exertion:
    """What a trip costs [kcal]: walking gross, the sled net, and the error of a distance assumed.

    `held` are the values that lay beyond an equation's range, in words.
    """

    hours: float
    walking_kcal: float
    sled_kcal: float
    off_kcal: float
    inputs: tuple[Input, ...]
    held: tuple[str, ...] = ()


def exertion(
    ground: Ground,
    snow: Snow,
    loads: Loads,
    step: str,
    *,
    body_mass_kg: float,
    resting_kcal_per_hour: float,
) -> Exertion:
    """What a trip costs one person [kcal]; beyond an equation's range its nearest value holds."""
    stretch = Stretch(
        hours=ground.hours,
        distance_km=ground.distance_km,
        ascent_m=ground.ascent_m,
        descent_m=ground.descent_m,
        pack_kg=float(loads.pack.value),
        sled_kg=0.0 if loads.sled is None else float(loads.sled.value),
        friction=float(snow.friction.value),
        terrain_factor=SNOW_TERRAIN_FACTOR,
        sinkage_cm=float(snow.sinkage.value),
    )

    def cost_over(factor: float) -> tuple[float, float, tuple[str, ...]]:
        cost = moving_cost(
            replace(stretch, distance_km=factor * stretch.distance_km),
            body_mass_kg=body_mass_kg,
            resting_kcal_per_hour=resting_kcal_per_hour,
        )
        return cost.walking_kcal, cost.sled_kcal, cost.held

    walking, sled, held = cost_over(1.0)
    off = 0.0
    if not ground.distance_given:
        off = max(abs(sum(cost_over(factor)[:2]) - walking - sled) for factor in (0.5, 2.0))
    inputs = [*ground.inputs, snow.sinkage, loads.pack, _FOOTWEAR]
    if loads.sled is not None:
        inputs += [loads.sled, snow.friction, _EFFICIENCY]
    named = tuple(
        Input(f"{one.name}{step}", one.value, one.unit, one.is_default, one.source)
        for one in inputs
    )
    return Exertion(ground.hours, walking, sled, off, named, held)
