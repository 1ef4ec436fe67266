"""A plan, or why there is none: the pipeline's answer with the diagnosis of a refusal."""

from __future__ import annotations

from dataclasses import replace

from solver import pipeline
from solver.outcome import Infeasible, Limits, Outcome
from solver.plan import Plan
from solver.problem import Problem, Timeline
from solver.progress import Watch
from solver.questions.why_not import diagnose

LEAST_SECONDS, SHARE = 5.0, 5.0
"""A diagnosis takes at most so long, and so many times as long as the refusal took [s, 1]."""

KEPT_SECONDS, KEPT_SHARE = 2.0, 0.25
"""Time that a diagnosis leaves, at most, and of what is left [s, 1].

Its last step hears of the end late, most of all on a busy machine. A refusal that is proven must
not be lost because the caller ended the process.
"""


def answer(
    problem: Problem,
    limits: Limits,
    watch: Watch,
    *,
    near: Plan | None = None,
    start: Plan | None = None,
    timeline: Timeline | None = None,
) -> Outcome:
    """What the pipeline says; a refusal says why, too, in the time that the watch has left.

    Raises what the pipeline raises.
    """
    outcome = pipeline.plan(problem, limits, watch, near=near, start=start, timeline=timeline)
    if not isinstance(outcome, Infeasible):
        return outcome
    # A proven refusal is an answer: who wished to finish has it without the diagnosis.
    watch.can_answer = True
    left = watch.wall_seconds - watch.elapsed()
    left -= min(KEPT_SECONDS, KEPT_SHARE * left)
    seconds = min(left, LEAST_SECONDS + SHARE * watch.elapsed())
    if seconds <= 0 or watch.should_stop():
        return outcome
    time = Watch(seconds, now=watch.now, wish_to_stop=watch.should_stop)
    time.start()
    return replace(outcome, diagnosis=diagnose(problem, limits, time))
