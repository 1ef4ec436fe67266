"""Errors that the solver library raises; a business answer is never one of them."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class ProblemFault:
    """One thing wrong with a problem: where it stands, a stable code, and what to do.

    `where` is the path to the field in the problem, for example ("calendar", 3, "places", 1).
    A fault of an id says what kind of thing the id names, and an unknown id which ones there are.
    """

    where: tuple[str | int, ...]
    code: str
    detail: str
    of_kind: str = ""
    given: str = ""
    known: tuple[str, ...] = ()


class FaultyProblemError(ValueError):
    """The problem contradicts itself; carries every fault found, not just the first."""

    def __init__(self, faults: tuple[ProblemFault, ...]) -> None:
        super().__init__("; ".join(f"{'/'.join(map(str, f.where))}: {f.detail}" for f in faults))
        self.faults = faults


class WithheldPlanError(RuntimeError):
    """The model and the checker disagree about a plan, which is our own bug.

    The plan must not leave the program. `findings` says what the checker saw.
    """

    def __init__(self, problem_digest: str, findings: tuple[str, ...]) -> None:
        super().__init__(f"plan withheld for problem {problem_digest}: " + "; ".join(findings[:5]))
        self.problem_digest = problem_digest
        self.findings = findings
