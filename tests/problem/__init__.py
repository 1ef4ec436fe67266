"""Tests of the trip's frozen data and of its cross-reference checks."""
