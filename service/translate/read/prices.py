"""Prices of a request, by what a plan calls the things. They never reach the solver."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from decimal import Decimal

from api_schema.gear import ItemRequest, PersonalItemRequest
from api_schema.plan_request import PlanRequest
from service.translate.read.notes import Notes, pointer_to
from solver.problem import Problem

NOTHING = Decimal(0)


@dataclass(frozen=True, slots=True)
class Prices:
    """What one of each thing costs, in one currency, None where nothing has a price.

    Units are by unit id; a bag of food costs what its sets cost. A part that comes with the price
    of the whole costs nothing by itself.
    """

    currency: str | None = None
    of_unit: Mapping[str, Decimal] = field(default_factory=dict)
    of_sled: Mapping[str, Decimal] = field(default_factory=dict)
    of_flight: Mapping[str, Decimal] = field(default_factory=dict)


def read_prices(request: PlanRequest, problem: Problem, notes: Notes) -> Prices:
    """All prices of a request; a fault for each that is in another currency than the first."""
    written = dict(_written(request))
    currencies = [text.partition(" ")[2] for text in written.values()]
    for pointer, text in written.items():
        if text.partition(" ")[2] != currencies[0]:
            words = f"Other prices are in {currencies[0]}. Give all prices in one currency."
            notes.fault(f"{pointer}/price", "mixed_currencies", words)
    amounts = {pointer: Decimal(text.partition(" ")[0]) for pointer, text in written.items()}
    return Prices(
        currency=currencies[0] if currencies else None,
        of_unit=dict(_units(request, problem, notes, amounts)) if amounts else {},
        of_sled=_named("sleds", [s.sled_id for s in request.sleds or ()], amounts),
        of_flight=_named("flights", [f.flight_id for f in request.flights], amounts),
    )


def _written(request: PlanRequest) -> Iterator[tuple[str, str]]:
    """Each price with the address of the thing that has it."""
    menu = request.menu.night_sets if request.menu is not None else ()
    lists: list[tuple[str, Sequence[object]]] = [
        ("/gear", request.gear),
        *(
            (pointer_to("personal_kits", kit_id), kit)
            for kit_id, kit in request.personal_kits.items()
        ),
        ("/menu/night_sets", menu),
        ("/fuel/containers", request.fuel.containers or ()),
        ("/sleds", request.sleds or ()),
        ("/flights", request.flights),
    ]
    for number, person in enumerate(request.roster):
        if isinstance(person.personal_kit, list):
            lists.append((pointer_to("roster", number, "personal_kit"), person.personal_kit))
        lists.append((pointer_to("roster", number, "extra_items"), person.extra_items))
    for pointer, things in lists:
        for index, thing in enumerate(things):
            price = getattr(thing, "price", None)
            if price is not None:
                yield f"{pointer}/{index}", price


def _units(
    request: PlanRequest, problem: Problem, notes: Notes, amounts: Mapping[str, Decimal]
) -> Iterator[tuple[str, Decimal]]:
    """Each unit id of the problem with the price of the thing that it was read from."""
    for index, item in enumerate(problem.gear):
        pointer = notes.pointer_of(("gear", index))
        if pointer in amounts:
            included = _comes_with_another(request, pointer, item.item_id)
            yield item.unit_id, NOTHING if included else amounts[pointer]
    for index, night_set in enumerate(problem.night_sets):
        pointer = notes.pointer_of(("night_sets", index))
        if pointer in amounts:
            yield night_set.unit_id, amounts[pointer] * night_set.sets_per_bag
    for number, group in enumerate(problem.cook_groups):
        for index, container in enumerate(group.containers):
            pointer = notes.pointer_of(("cook_groups", number, "containers", index))
            if pointer in amounts:
                yield container.unit_id, amounts[pointer]


def _comes_with_another(request: PlanRequest, pointer: str, item_id: str) -> bool:
    """Whether a thing is a part of an item, and not the first one, with which the price goes."""
    _, where, index, *_ = (*pointer.split("/"), "", "")
    item: PersonalItemRequest | None = request.gear[int(index)] if where == "gear" else None
    if not isinstance(item, ItemRequest) or not item.parts:
        return False
    first = f"{item.item_id}.{item.parts[0].part_id}"
    return item_id != first and not item_id.startswith(f"{first}.")


def _named(part: str, names: Sequence[str], amounts: Mapping[str, Decimal]) -> dict[str, Decimal]:
    found = ((name, amounts.get(f"/{part}/{index}")) for index, name in enumerate(names))
    return {name: amount for name, amount in found if amount is not None}
