"""Tests of the rulebook, room by room."""
