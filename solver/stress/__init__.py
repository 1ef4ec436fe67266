"""Stress tests: what one storm or one loss on any day does to a plan."""

from solver.stress.blows import BlowKind
from solver.stress.stress import Stress, stress_test

__all__ = ["BlowKind", "Stress", "stress_test"]
