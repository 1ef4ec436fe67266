"""Tests of the calculators against their published sources."""
