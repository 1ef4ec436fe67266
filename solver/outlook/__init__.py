"""What a plan can stand: nights of waiting, storms by chance."""

from solver.outlook.odds import Odds, Policy, Shares, odds
from solver.outlook.storms import StormChance, StormChanceError, draw_storms
from solver.outlook.waiting import Wait, waits

__all__ = [
    "Odds",
    "Policy",
    "Shares",
    "StormChance",
    "StormChanceError",
    "Wait",
    "draw_storms",
    "odds",
    "waits",
]
