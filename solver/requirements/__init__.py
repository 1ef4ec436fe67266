"""What the trip needs by person, place and night."""

from solver.requirements.consumption import (
    Burn,
    EmptyContainer,
    NightMeal,
    Opening,
    OpenSpell,
    Sack,
)
from solver.requirements.provisions import Supplies, supplies
from solver.requirements.reserves import ReserveNight

__all__ = [
    "Burn",
    "EmptyContainer",
    "NightMeal",
    "OpenSpell",
    "Opening",
    "ReserveNight",
    "Sack",
    "Supplies",
    "supplies",
]
