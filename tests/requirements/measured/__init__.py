"""Measured groups: assumed inputs, and the comparison of computed with measured days."""
