"""What a race comes to: times to a plan, to a close one, to its proof; and the ratios."""

from __future__ import annotations

from dataclasses import dataclass

from tests.benchmarks.racing import Run

TIMES: tuple[tuple[str, str], ...] = (
    ("first_s", "first plan"),
    ("percent_s", "to 1 %"),
    ("per_mille_s", "to 0.1 %"),
    ("proof_s", "proof"),
)


@dataclass(frozen=True)
class Measures:
    """One contestant on one expedition; None for what it did not reach [s, 1/10,000].

    `percent_s` and `per_mille_s` are times to a plan within 1 % and 0.1 % of the best bound
    that any contestant proved; `proof_s` is when its own bound met its own peak.
    """

    contestant: str
    ended: str
    first_s: float | None
    percent_s: float | None
    per_mille_s: float | None
    proof_s: float | None
    peak: int | None
    bound: int
    memory_mb: float
    build_s: float
    wall_s: float
    variables: int
    breaches: int | None


def best_bound(runs: list[Run]) -> int:
    """The highest bound that any contestant proved [1/10,000]."""
    return max((told.bound or 0 for run in runs for told in run.told), default=0)


def best_peak(run: Run) -> int | None:
    """The lowest peak that a contestant told or ended with [1/10,000]."""
    peaks = [told.peak for told in run.told if told.peak is not None]
    peaks += [run.peak] if run.peak is not None else []
    return min(peaks, default=None)


def contradictions(runs: list[Run]) -> list[str]:
    """What cannot be: a bound above somebody's plan, or a plan that breaks its rules."""
    found = [
        f"{run.task.contestant}: its last plan breaks {run.breaches} rules"
        for run in runs
        if run.breaches
    ]
    for run in runs:
        bound = best_bound([run])
        found += [
            f"{run.task.contestant} proved {bound}, {other.task.contestant} has {other.peak}"
            for other in runs
            if other.peak is not None and bound > other.peak
        ]
    return found


def measure(run: Run, true_bound: int) -> Measures:
    """Read the times off what a contestant told."""
    first = percent = per_mille = proof = None
    peak, bound = 1 << 30, 0
    for told in sorted(run.told, key=lambda told: told.at_s):
        if told.peak is not None:
            peak = min(peak, told.peak)
            first = told.at_s if first is None else first
        bound = max(bound, told.bound or 0)
        if percent is None and 100 * peak <= 101 * true_bound:
            percent = told.at_s
        if per_mille is None and 1000 * peak <= 1001 * true_bound:
            per_mille = told.at_s
        if proof is None and bound >= peak:
            proof = told.at_s
    if run.peak is not None and run.peak > bound:
        # The plan replayed is a grain above what its log said.
        proof = None
    return Measures(
        contestant=run.task.contestant,
        ended="proven" if proof is not None and run.ended == "plan" else run.ended,
        first_s=first,
        percent_s=percent,
        per_mille_s=per_mille,
        proof_s=proof,
        peak=best_peak(run) if run.peak is None else run.peak,
        bound=bound,
        memory_mb=run.memory_mb,
        build_s=run.build_s,
        wall_s=run.wall_s,
        variables=run.variables,
        breaches=run.breaches,
    )


def ratios(rows: list[Measures], seconds: float) -> dict[str, tuple[float, bool] | None]:
    """How many times ours the best of the others took, by measure, and whether at least so.

    At least, where none of the others got there in time. None where ours did not.
    """
    mine = next((row for row in rows if row.contestant == "ours"), None)
    others = [row for row in rows if row.contestant != "ours"]
    found: dict[str, tuple[float, bool] | None] = {}
    for name in [*(name for name, _ in TIMES), "memory_mb"]:
        own = None if mine is None else getattr(mine, name)
        # The memory of who never found a plan is no yardstick.
        theirs = [
            value
            for row in others
            if row.first_s is not None and (value := getattr(row, name)) is not None
        ]
        if not own or not others:
            found[name] = None
        elif theirs:
            found[name] = (min(theirs) / own, False)
        else:
            found[name] = None if name == "memory_mb" else (seconds / own, True)
    return found
