"""Keepers of a plan as the wire has them."""

from __future__ import annotations

from api_schema.keeper_answer import ElsewhereAnswer, KeeperAnswer
from service.translate.read.requests import ReadRequest
from service.translate.write.choices import ELSEWHERE_REASONS
from solver.plan import Elsewhere, Keeper


def write_keepers(read: ReadRequest, keepers: tuple[Keeper, ...]) -> list[KeeperAnswer]:
    """Who keeps what, in the order of the request's gear."""
    counts = {item.unit_id: item.count for item in read.problem.gear}
    return [
        KeeperAnswer(
            unit_id=keeper.unit_id,
            name=read.names.get(keeper.unit_id),
            count=counts[keeper.unit_id],
            person_id=keeper.person_id,
            is_named=keeper.is_named,
            from_day=keeper.from_day,
            to_day=keeper.to_day,
            trips=keeper.trips,
            elsewhere=[_write_elsewhere(one) for one in keeper.elsewhere],
        )
        for keeper in keepers
    ]


def _write_elsewhere(one: Elsewhere) -> ElsewhereAnswer:
    return ElsewhereAnswer(
        day=one.day,
        step=one.step,
        from_=one.from_place,
        to=one.to_place,
        person_id=one.person_id,
        count=one.count,
        reason=ELSEWHERE_REASONS[one.reason],
    )
