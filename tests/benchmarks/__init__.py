"""Measurements of time and of plan quality on fixed worlds."""
