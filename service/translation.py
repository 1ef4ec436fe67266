"""The translation that the service runs with; tests of the service alone bring another one."""

from api_schema.plan_check import PlanCheckAnswer
from api_schema.requirements_answer import RequirementsAnswer
from service.translate.read.plan_checks import read_plan_check
from service.translate.read.requests import read_plan_request
from service.translate.write.requirements import write_requirements
from service.translate.write.verdict import write_verdict
from service.wiring import Translation
from solver.checker import check


def judge_plan(document: dict[str, object]) -> PlanCheckAnswer:
    """The verdict of the independent check on a request and a plan for it."""
    read, plan = read_plan_check(document)
    report = check(read.problem, plan, read.timeline)
    return write_verdict(read, plan, report.findings, report.remarks, report.keepers)


def state_requirements(
    document: dict[str, object], part_names: tuple[str, ...] | None = None
) -> RequirementsAnswer:
    """What the trip of a request needs, in all parts or in those named."""
    read = read_plan_request(document)
    return write_requirements(read) if part_names is None else write_requirements(read, part_names)


TRANSLATION = Translation(
    read_plan_request=read_plan_request,
    judge_plan=judge_plan,
    state_requirements=state_requirements,
    # Named, not imported: the web process never loads the solver.
    solve_job="service.jobs.child:solve_document",
)
