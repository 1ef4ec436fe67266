"""The job of a child process: a stored request in, its outcome out; only this module solves."""

import json
import logging
import time
from dataclasses import replace

from api_schema.plan_answer import OutcomeAnswer
from api_schema.plan_resource import ProgressAnswer
from service.jobs.child_process import JobLimits, Talk
from service.translate.read.requests import read_plan_request
from service.translate.write.outcomes import write_failure, write_outcome
from service.translate.write.units import share
from solver.errors import WithheldPlanError
from solver.progress import Progress, Watch
from solver.questions.answer import answer as answer_problem

logger = logging.getLogger(__name__)


def solve_document(request_document: bytes, limits: JobLimits, talk: Talk) -> bytes:
    """The outcome document of a plan request, solved within the limits."""
    answer: OutcomeAnswer
    begun = time.monotonic()
    read = read_plan_request(json.loads(request_document))
    # What is left is the watch's; the search counts its steps by the whole, which never varies.
    watch = Watch(
        max(1.0, limits.wall_seconds - (time.monotonic() - begun)),
        now=time.monotonic,
        tell=lambda progress: talk.tell(_progress_document(progress)),
        should_stop=talk.should_finish,
    )
    try:
        outcome = answer_problem(
            read.problem,
            replace(read.limits, wall_seconds=limits.wall_seconds),
            watch,
            near=read.near,
            timeline=read.timeline,
        )
        answer = write_outcome(outcome, read)
    except WithheldPlanError as error:
        logger.error("problem %s: %s", error.problem_digest, error)  # noqa: TRY400
        answer = write_failure(
            read,
            code="withheld_plan",
            detail="The plan that was found did not pass the independent check and is withheld.",
        )
    return answer.model_dump_json().encode()


def _progress_document(progress: Progress) -> bytes:
    """The progress of a solve as JSON: peak and bound as shares of a cap, time in seconds."""
    answer = ProgressAnswer(
        stage=progress.stage,
        peak=None if progress.peak is None else share(progress.peak),
        bound=share(progress.bound),
        seconds=round(progress.seconds, 3),
    )
    return answer.model_dump_json().encode()
