"""Flights: what their directions are called."""

from solver.problem.flights import FlightDirection


def test_directions_read_as_in_and_out_in_a_sentence():
    """A message speaks of flights in and out, the wire of fly_in and fly_out."""
    assert [one.way for one in FlightDirection] == ["in", "out"]
    assert [one.value for one in FlightDirection] == ["fly_in", "fly_out"]
