"""The job of a child that answers a question: what binds a plan, which calendars there are."""

import json
import logging
import math
import time
from collections.abc import Callable
from typing import Any

from pydantic import BaseModel

from api_schema.edited_plan import EditedPlan
from service.errors import RequestFaults, ServiceProblem
from service.jobs.child_process import JobLimits, Talk, seconds_until
from service.jobs.desk_job import done, refused
from service.jobs.questions import ENDS_AT
from service.jobs.replan_calendars_child import choose_calendars
from service.translate.read.calendars import read_calendars
from service.translate.read.plan_checks import read_plan_check
from service.translate.write.calendars import write_calendars
from service.translate.write.common import common_part
from service.translate.write.limits import write_limits
from solver.errors import WithheldPlanError
from solver.progress import Watch
from solver.quantities import FRACTION_GRID
from solver.questions.calendars.choose import choose
from solver.questions.calendars.found import FoundCalendars
from solver.questions.calendars.search import find_calendars
from solver.questions.what_binds import what_binds
from solver.questions.worth import Worth

LIMITS_THAT_BIND, CALENDARS = "limits_that_bind", "calendars"
REPLAN_CALENDARS = "replan_calendars"

_KEPT_SECONDS = 0.5
"""Time for writing the answer [s]."""

logger = logging.getLogger(__name__)

Document = dict[str, Any]
Tell = Callable[[BaseModel], None]
"""Takes the answer as it would be if the time ended now."""


def answer_question(question: bytes, limits: JobLimits, talk: Talk) -> bytes:
    """The answer to a question document, or its refusal, as a desk gives them.

    What is known meanwhile is told in the same form.
    """
    document = json.loads(question)
    seconds = min(limits.wall_seconds, seconds_until(document.get(ENDS_AT, math.inf)))
    watch = Watch(max(0.5, seconds - _KEPT_SECONDS), now=time.monotonic)
    watch.start()

    def tell(answer: BaseModel) -> None:
        talk.tell(_written(answer))

    try:
        answer = _ANSWERS[document["question"]](document, watch, tell)
    except RequestFaults as faults:
        return refused("", None, faults.faults)
    except ServiceProblem as problem:
        return refused(problem.code, problem.detail, problem.faults)
    except WithheldPlanError as error:
        logger.error("problem %s: %s", error.problem_digest, error)  # noqa: TRY400
        return refused("internal_error", None, ())
    return _written(answer)


def _written(answer: BaseModel) -> bytes:
    return done(answer.model_dump_json().encode())


def _limits_that_bind(document: Document, watch: Watch, tell: Tell) -> BaseModel:
    fields = EditedPlan.model_fields
    stored = {name: part for name, part in document["plan"].items() if name in fields}
    read, plan = read_plan_check({"request": document["request"], "plan": stored})
    bound = round((document["bound"] or 0) * FRACTION_GRID)
    cautions = common_part(read)["cautions"]

    def written(worth: Worth) -> BaseModel:
        return write_limits(worth, plan_id=document["plan_id"], cautions=cautions)

    return written(
        what_binds(
            read.problem, plan, bound, read.limits, watch, tell=lambda one: tell(written(one))
        )
    )


def _calendars(document: Document, watch: Watch, tell: Tell) -> BaseModel:
    asked = read_calendars(document["body"])

    def written(found: FoundCalendars) -> BaseModel:
        chosen = choose(found, asked.goal, tolerance=asked.tolerance)
        return write_calendars(found, chosen, asked.skeleton, asked.read)

    found = find_calendars(
        asked.read.problem,
        asked.rules,
        asked.read.limits,
        watch,
        tolerance=asked.tolerance,
        tell=lambda one: tell(written(one)),
    )
    if found is None:
        raise ServiceProblem("internal_error")
    return written(found)


def _rest_calendars(document: Document, watch: Watch, _tell: Tell) -> BaseModel:
    return choose_calendars(document, watch)


_ANSWERS: dict[str, Callable[[Document, Watch, Tell], BaseModel]] = {
    LIMITS_THAT_BIND: _limits_that_bind,
    CALENDARS: _calendars,
    REPLAN_CALENDARS: _rest_calendars,
}
