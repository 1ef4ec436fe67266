"""Tests of what is said where there is no plan."""
