"""The rest of an expedition, planned from what was counted on the way."""

from solver.rest.planning import LettingGo, Rest, plan_rest
from solver.rest.wait import Spent

__all__ = ["LettingGo", "Rest", "Spent", "plan_rest"]
