"""Whole grams, millilitres and fractions as the wire has them."""

from __future__ import annotations


def kilograms(mass_g: int) -> float:
    """A mass as the wire has it [kg]."""
    return round(mass_g / 1000, 3)


def litres(volume_ml: int) -> float:
    """A volume as the wire has it [L]."""
    return round(volume_ml / 1000, 3)


def share(fraction: int) -> float:
    """A load fraction as the wire has it; fractions are whole 1/10,000."""
    return round(fraction / 10_000, 4)
