"""What a plan costs: prices times counts, by kind, and how many things have no price."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal
from typing import get_args

from api_schema.cost_answer import CostKindName, CostsAnswer, KindCostAnswer
from service.translate.read.requests import ReadRequest
from service.translate.write.unit_labels import UnitLabels
from solver.plan import Plan

KINDS: tuple[CostKindName, ...] = get_args(CostKindName)


def money(amount: Decimal) -> str:
    """An amount with two decimals."""
    return f"{amount:.2f}"


def write_costs(read: ReadRequest, plan: Plan) -> CostsAnswer | None:
    """The costs of a plan; None where the request gives no price."""
    if read.prices.currency is None:
        return None
    found = list(_things(read, plan))
    sums = {kind: [amount for one, amount in found if one == kind] for kind in KINDS}
    kinds = [_of_kind(kind, amounts) for kind, amounts in sums.items() if amounts]
    total = sum((a for _, a in found if a is not None), Decimal(0))
    return CostsAnswer(currency=read.prices.currency, total=money(total), kinds=kinds)


def _of_kind(kind: CostKindName, amounts: list[Decimal | None]) -> KindCostAnswer:
    priced = [amount for amount in amounts if amount is not None]
    return KindCostAnswer(
        kind=kind,
        total=money(sum(priced, Decimal(0))) if priced else None,
        priced=len(priced),
        without_price=len(amounts) - len(priced),
    )


def _things(read: ReadRequest, plan: Plan) -> Iterator[tuple[CostKindName, Decimal | None]]:
    """The kind of each different thing that a plan takes, and what all of it costs."""
    labels, prices = UnitLabels(read.problem, read.names), read.prices
    for entry in plan.stock:
        if (entry.day, entry.place_id) != (0, read.problem.start_place):
            continue
        for stowed in entry.units:
            kind = labels.of(stowed.unit_id).kind
            each = prices.of_unit.get(stowed.unit_id)
            if kind in ("food", "fuel", "gear"):
                yield kind, None if each is None else each * stowed.count
    for sled_id in sorted(
        {load.sled_id for trip in plan.trips for load in trip.loads if load.sled_id is not None}
    ):
        yield "sled", prices.of_sled.get(sled_id)
    for flight in plan.flights:
        yield "flight", prices.of_flight.get(flight.flight_id)
