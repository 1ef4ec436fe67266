"""The independent check: replays a plan's ledger and judges every rule without the model.

`ledger` works out where each unit is at every time, `queries` answer what several rules ask of
it, `rules` and `request_rules` judge, `goals` are the figures that a plan is measured by, and
`check` tells the story.
"""

from solver.checker.check import (
    CheckReport,
    RequestReport,
    check,
    check_hard_request,
    check_plan,
    check_request,
    first_finding,
    why_containers,
    why_so_much,
)

__all__ = [
    "CheckReport",
    "RequestReport",
    "check",
    "check_hard_request",
    "check_plan",
    "check_request",
    "first_finding",
    "why_containers",
    "why_so_much",
]
