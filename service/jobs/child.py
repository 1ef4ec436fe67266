"""The job of a child process: a stored request in, its outcome out; only this module solves."""

import json
import logging
import time
from dataclasses import replace

from api_schema.evacuation_answer import EvacuationAnswer
from api_schema.plan_answer import OutcomeAnswer
from api_schema.plan_resource import ProgressAnswer
from service.jobs.child_process import JobLimits, Talk
from service.translate.read.people_on_the_way import ReadHurt, days_of
from service.translate.read.replans import ReadReplan, read_replan
from service.translate.read.requests import read_plan_request
from service.translate.write.evacuation import write_evacuation
from service.translate.write.outcomes import write_failure, write_outcome
from service.translate.write.rest import write_rest
from service.translate.write.units import share
from solver.errors import FaultyProblemError, WithheldPlanError
from solver.outcome import Limits
from solver.problem import read_timeline
from solver.progress import Progress, Watch
from solver.questions.answer import answer as answer_problem
from solver.rest.evacuation import evacuate
from solver.rest.hurt import How, Hurt
from solver.rest.planning import plan_rest
from solver.rest.result import LettingGo, Rest

logger = logging.getLogger(__name__)


def solve_document(request_document: bytes, limits: JobLimits, talk: Talk) -> bytes:
    """The outcome document of a plan request, solved within the limits."""
    answer: OutcomeAnswer
    begun = time.monotonic()
    document = json.loads(request_document)
    replan = read_replan(document) if "state" in document else None
    read = replan.read if replan is not None else read_plan_request(document)
    # What is left is the watch's; the search counts its steps by the whole, which never varies.
    watch = Watch(
        max(1.0, limits.wall_seconds - (time.monotonic() - begun)),
        now=time.monotonic,
        tell=lambda progress: talk.tell(_progress_document(progress)),
        wish_to_finish=talk.should_finish,
    )
    solve_limits = replace(read.limits, wall_seconds=limits.wall_seconds)
    try:
        if replan is not None:
            answer = _plan_rest(replan, solve_limits, watch)
        else:
            outcome = answer_problem(
                read.problem,
                solve_limits,
                watch,
                near=read.near,
                start=read.start,
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


def _plan_rest(replan: ReadReplan, limits: Limits, watch: Watch) -> OutcomeAnswer:
    """The outcome of a re-plan, with what it says of the rest."""
    letting_go = [
        LettingGo(step.reason, step.rule_id, step.kind, step.place_id) for step in replan.letting_go
    ]
    evacuation: EvacuationAnswer | None = None
    if replan.hurt is not None:
        evacuation, rest = _evacuate(replan, replan.hurt, (limits, watch), letting_go)
    else:
        rest = plan_rest(
            replan.read.problem,
            replan.followed,
            limits,
            watch,
            wait_nights=replan.state.wait_nights,
            days_are_in=True,
            letting_go=letting_go,
        )
    read = replace(replan.read, problem=rest.problem, timeline=read_timeline(rest.problem))
    answer = write_outcome(rest.outcome, read)
    return answer.model_copy(update={"rest": write_rest(replan, rest, evacuation)})


def _evacuate(
    replan: ReadReplan,
    asked: ReadHurt,
    limits: tuple[Limits, Watch],
    letting_go: list[LettingGo],
) -> tuple[EvacuationAnswer, Rest]:
    """What comes of somebody who has to go down, and the rest of those who stay or of all."""
    problem = replan.read.problem
    hurt = Hurt(asked.person_id, How(asked.how), asked.companions, days_of(problem, asked))
    if asked.litter_g is not None:
        hurt = replace(hurt, litter_g=asked.litter_g)
    found, stay = evacuate(problem, replan.followed, hurt, *limits, letting_go=letting_go)
    told = write_evacuation(replan.read, found, stay)
    rest = stay or found.down
    if rest is None:
        raise FaultyProblemError(())
    return told, rest


def _progress_document(progress: Progress) -> bytes:
    """The progress of a solve as JSON: peak and bound as shares of a cap, time in seconds."""
    answer = ProgressAnswer(
        stage=progress.stage,
        peak=None if progress.peak is None else share(progress.peak),
        bound=share(progress.bound),
        seconds=round(progress.seconds, 3),
    )
    return answer.model_dump_json().encode()
