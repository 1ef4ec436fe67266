"""Replay of a plan's ledger that judges every rule without the model.

One module for each thing that the replay works out for itself (`meals`, `fuel`, `stays`,
`needs`), `course` for where each unit stands, `rules` for the judgements, `goals` for the
figures that a plan is measured by.
"""

from solver.checker.check import CheckReport, RequestReport, check, check_request, refusals

__all__ = ["CheckReport", "RequestReport", "check", "check_request", "refusals"]
