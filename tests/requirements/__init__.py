"""Tests of what the trip is said to need."""
