"""Flights to and from the start place: who and what is on which, and why it cannot be."""

from solver.model.flights.background import BackgroundFlights
from solver.model.flights.solve_flights import FlightAnswer, solve_flights

__all__ = ["BackgroundFlights", "FlightAnswer", "solve_flights"]
