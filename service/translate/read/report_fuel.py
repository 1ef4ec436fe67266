"""How much fuel of a kitchen did not come home, by the containers that a report counts."""

from __future__ import annotations

from service.translate.read import quantities
from service.translate.read.report_facts import ReadReport
from solver.problem import Container


def is_counted(report: ReadReport, kitchen_id: str) -> bool:
    """Whether a report says anything of the containers of a kitchen."""
    ids = {kind.unit_id for kind in _kinds(report, kitchen_id)}
    return any(one.unit_id in ids for one in report.asked.containers)


def drawn_ml(report: ReadReport, kitchen_id: str) -> int:
    """Fuel that left the containers of a kitchen, burnt or spilt [mL].

    Of kinds that the report does not name, as much is left as planned. An opened container that
    was lost on the way counts as empty.
    """
    total_ml = 0
    for kind in _kinds(report, kitchen_id):
        there = report.had(kind.unit_id) - report.gone(kind.unit_id)
        total_ml += there * kind.content_ml - _left_ml(report, kind)
    return max(0, total_ml)


def spilt_ml(report: ReadReport, kitchen_id: str) -> int:
    """Fuel of a kitchen that ran out without being burnt [mL]."""
    return sum(
        quantities.whole_nearest(one.amount)
        for one in report.asked.spilt
        if one.cook_group == kitchen_id
    )


def planned_unopened(report: ReadReport, kind: Container) -> int:
    """Containers of a kind that are still full at the end of the plan."""
    return sum(u["count"] for u in report.plan["comes_down"] if u["unit_id"] == kind.unit_id)


def _kinds(report: ReadReport, kitchen_id: str) -> tuple[Container, ...]:
    return report.problem.cook_group(kitchen_id).containers


def _left_ml(report: ReadReport, kind: Container) -> int:
    """What is left in the containers of a kind, as counted or else as planned [mL]."""
    for one in report.asked.containers:
        if one.unit_id == kind.unit_id:
            opened = sum(quantities.whole_nearest(left) for left in one.open)
            return one.full * kind.content_ml + opened
    density = report.problem.fuel_density_g_per_l
    opened = 0
    for unit in report.plan["comes_down"]:
        if unit["unit_id"].startswith(f"{kind.unit_id}/open-"):
            fuel_g = round(unit["each_kg"] * 1000) - kind.tare_g
            opened += unit["count"] * round(fuel_g * 1000 / density)
    return planned_unopened(report, kind) * kind.content_ml + opened
