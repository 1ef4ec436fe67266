"""The units that requests may use, as a list for callers."""

from api_schema.quantities import DIMENSIONS, TEMPERATURE
from api_schema.reference import DimensionAnswer, UnitAnswer
from service.translate.read.quantities import BASE_OF, FACTORS

_TEMPERATURE_BASE = "degC"


def dimension_entries() -> list[DimensionAnswer]:
    """Every kind of quantity with its units, each with its factor to the base unit."""
    return [
        DimensionAnswer(
            dimension=dimension.name,
            units=[_unit_entry(unit) for unit in dimension.units],
            pattern=dimension.pattern,
            examples=list(dimension.examples),
        )
        for dimension in DIMENSIONS
    ]


def _unit_entry(unit: str) -> UnitAnswer:
    if unit in TEMPERATURE.units:
        factor = "1" if unit == _TEMPERATURE_BASE else None
        return UnitAnswer(unit=unit, factor=factor, base_unit=_TEMPERATURE_BASE)
    return UnitAnswer(unit=unit, factor=f"{FACTORS[unit]:f}", base_unit=BASE_OF[unit])
