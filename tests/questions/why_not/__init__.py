"""Tests of why there is no plan."""
