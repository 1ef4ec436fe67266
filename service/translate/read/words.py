"""Figures on the solver's grid in words, as assumptions show them."""

from __future__ import annotations


def grams(mass_g: int) -> str:
    """A small mass."""
    return f"{mass_g} g"


def kilograms(mass_g: int) -> str:
    """A mass."""
    return f"{mass_g / 1000:g} kg"


def litres(volume_ml: int) -> str:
    """A volume; of water, also a mass in grams, since a litre is a kilogram to within a sip."""
    return f"{volume_ml / 1000:g} L"


def millilitres(volume_ml: int) -> str:
    """A small volume."""
    return f"{volume_ml} mL"


def percent(value: int) -> str:
    """A percentage."""
    return f"{value} %"


def density(g_per_l: int) -> str:
    """The density of a liquid."""
    return f"{g_per_l / 1000:g} kg/L"


def density_of_room(ml_per_g: int) -> str:
    """The density of what takes so many millilitres for each gram."""
    return f"{1 / ml_per_g:g} kg/L"
