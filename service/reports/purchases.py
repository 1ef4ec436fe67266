"""What to buy and to get ready for a plan, with what was given and what was assumed of each."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping
from decimal import Decimal
from typing import Any

from api_schema.purchase_answer import BasisName, PurchaseAnswer
from api_schema.unit_answer import PlanUnitAnswer
from service.reports.tables import Table, table_of
from service.translate.read.requests import ReadRequest
from service.translate.write.costs import money
from service.translate.write.unit_labels import UnitLabels

Document = dict[str, Any]

_ORDER = ("food", "fuel", "gear", "sled", "waste")


def purchases_of(read: ReadRequest, outcome: Document) -> list[PurchaseAnswer]:
    """Everything that is taken along: food first, then fuel, then gear."""
    known = UnitLabels(read.problem, read.names)
    bases = bases_of(read)
    plan, why = outcome["plan"], defaultdict[str, list[str]](list)
    for reason in plan.get("containers", ()):
        why[reason["unit_id"]].append(reason["say"])
    found = [
        _purchase(
            unit,
            known.of(unit["unit_id"]),
            bases,
            " ".join(why[unit["unit_id"]]),
            read.prices.of_unit.get(unit["unit_id"]),
        )
        for unit in plan["taken_along"]
    ]
    return sorted(found, key=lambda purchase: _ORDER.index(purchase.kind))


def purchases_table(purchases: list[PurchaseAnswer]) -> Table:
    """One line for each kind of thing."""
    columns = tuple(PurchaseAnswer.model_fields)
    return table_of(columns, [purchase.model_dump() for purchase in purchases])


def _purchase(
    unit: Document,
    known: PlanUnitAnswer,
    bases: Mapping[str, BasisName],
    why: str,
    each: Decimal | None,
) -> PurchaseAnswer:
    count, sets, fuel_ml = unit["count"], known.night_sets, known.fuel_ml
    return PurchaseAnswer(
        kind=known.kind,
        thing=known.label,
        unit_id=known.unit_id,
        cook_group=known.cook_group,
        owner=known.owner,
        count=count,
        night_sets=None if sets is None else count * sets,
        fuel_ml=None if fuel_ml is None else count * fuel_ml,
        size_ml=fuel_ml,
        each_kg=unit["each_kg"],
        kg=round(count * unit["each_kg"], 3),
        basis=bases.get(known.unit_id, "given"),
        why=why or None,
        price_each=None if each is None else money(each),
        cost=None if each is None else money(each * count),
    )


def bases_of(read: ReadRequest) -> dict[str, BasisName]:
    """By unit id, whether mass and volume are given or assumed."""
    assumed = {assumption.pointer for assumption in read.assumptions}
    bases: dict[str, BasisName] = {}
    for index, item in enumerate(read.problem.gear):
        pointer = read.pointer_of(("gear", index)) or ""
        if pointer in assumed:
            bases[item.unit_id] = "assumed"
        elif any(p.startswith(f"{pointer}/") and p.endswith("/volume") for p in assumed):
            bases[item.unit_id] = "volume_assumed"
        else:
            bases[item.unit_id] = "given"
    food: BasisName = "assumed" if any(_below(p, "/menu") for p in assumed) else "given"
    fuel: BasisName = "assumed" if "/fuel/containers" in assumed else "given"
    bases |= {night_set.unit_id: food for night_set in read.problem.night_sets}
    return bases | {c.unit_id: fuel for g in read.problem.cook_groups for c in g.containers}


def _below(pointer: str, whole: str) -> bool:
    """Whether the menu itself was left out; a fuel that was worked out for a set weighs nothing."""
    return pointer == whole or (pointer.startswith(f"{whole}/") and not pointer.endswith("/fuel"))
