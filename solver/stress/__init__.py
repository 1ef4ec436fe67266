"""Stress tests: what one storm or one loss on any day does to a plan."""

from solver.stress.blows import Blow, BlowKind
from solver.stress.stress import Report, Result, Stress, stress_test
from solver.stress.verdicts import Verdict
from solver.stress.weakest import OneMore, Weakest

__all__ = [
    "Blow",
    "BlowKind",
    "OneMore",
    "Report",
    "Result",
    "Stress",
    "Verdict",
    "Weakest",
    "stress_test",
]
