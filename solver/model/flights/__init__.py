"""Flights to and from the start place: who and what is on which, and why it cannot be."""

from solver.model.flights.fly import Flown, fly
from solver.model.flights.flying import Flying

__all__ = ["Flown", "Flying", "fly"]
