"""Tests of the solvers."""
