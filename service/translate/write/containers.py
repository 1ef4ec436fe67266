"""Why each fuel container of a plan is taken along, as the wire has it."""

from __future__ import annotations

from api_schema.container_answer import ContainerAnswer, WithoutOneAnswer
from service.translate.read.requests import ReadRequest
from service.translate.write.unit_labels import UnitLabels
from solver.checker import why_containers
from solver.checker.queries.container_reasons import ContainerReason
from solver.plan import Plan


def write_containers(read: ReadRequest, plan: Plan) -> list[ContainerAnswer]:
    """The reasons in the order of the cook groups and of their lists."""
    labels = UnitLabels(read.problem, read.names)
    reasons = why_containers(read.problem, plan, read.timeline)
    return [_write(reason, labels) for reason in reasons]


def _write(reason: ContainerReason, labels: UnitLabels) -> ContainerAnswer:
    kind, broken = reason.container, reason.without_one
    day, place = reason.opened or (None, None)
    return ContainerAnswer(
        unit_id=kind.unit_id,
        container_id=kind.container_id,
        cook_group=kind.cook_group_id,
        count=reason.count,
        opened_day=day,
        opened_at=place,
        without_one=None
        if broken is None
        else WithoutOneAnswer(
            rule_id=broken.rule_id,
            message=broken.message,
            amount=broken.amount,
            unit=broken.unit,
        ),
        lighter=list(reason.would_do),
        say=_say(reason, labels),
    )


def _say(reason: ContainerReason, labels: UnitLabels) -> str:
    begin = f"{reason.count} x {labels.of(reason.container.unit_id).label}:"
    if reason.opened is None:
        begin += " not opened."
    else:
        day, place = reason.opened
        begin += f" opened on the night of day {day} at {place}."
    if reason.without_one is None:
        given = reason.container.count is not None
        why = "The request gives the count." if given else "No rule asks for it."
        return f"{begin} Without one, nothing breaks. {why}"
    without = f"{begin} Without one: {reason.without_one.message}."
    if reason.opened is not None:
        return without
    if reason.would_do:
        group = reason.container.cook_group_id
        kinds = (labels.of(f"{group}/{container_id}").label for container_id in reason.would_do)
        return f"{without} In its place one of these would do: {'; '.join(kinds)}."
    return f"{without} Nothing lighter in the list is enough."
