"""The job of a desk: it loads the translation and the checker, but no solver and no web service."""

from typing import Any

from api_schema.plan_check import PlanCheckAnswer
from api_schema.requirements_answer import RequirementsAnswer
from service.jobs.desk_job import desk_job
from service.translate.read.budget import require_budget
from service.translate.read.plan_checks import read_plan_check
from service.translate.read.recheck import read_recheck
from service.translate.read.replans import read_replan, with_state
from service.translate.read.requests import ReadRequest, read_plan_request
from service.translate.write.requirements import write_requirements
from service.translate.write.verdict import write_verdict
from solver.checker import check


def read_order(document: dict[str, object]) -> ReadRequest:
    """A request in order that makes no more work than anybody may ask for."""
    return require_budget(read_plan_request(document))


def judge_plan(document: dict[str, object]) -> PlanCheckAnswer:
    """The verdict of the independent check on a request and a plan for it."""
    read, plan = read_plan_check(document)
    require_budget(read)
    report = check(read.problem, plan, read.timeline)
    return write_verdict(read, plan, report.findings, report.remarks, report.keepers)


def judge_replan(document: dict[str, Any]) -> PlanCheckAnswer:
    """The verdict on a stored re-plan, `stored`, and its `outcome`."""
    read, plan = read_recheck(document["stored"], document["outcome"])
    report = check(read.problem, plan, read.timeline)
    return write_verdict(read, plan, report.findings, report.remarks, report.keepers)


def state_requirements(
    document: dict[str, object], part_names: tuple[str, ...] | None = None
) -> RequirementsAnswer:
    """What the trip of a request needs, in all parts or in those named."""
    read = read_order(document)
    return write_requirements(read) if part_names is None else write_requirements(read, part_names)


def order_replan(
    followed: dict[str, Any], state: dict[str, Any]
) -> tuple[ReadRequest, dict[str, Any]]:
    """A re-plan in order, and its document; `followed` has the `request`, `plan` and `of_plan`."""
    document = with_state(followed["request"], followed["plan"], followed["of_plan"], state)
    return require_budget(read_replan(document).read), document


work_at_desk = desk_job(read_order, judge_plan, state_requirements, order_replan, judge_replan)
