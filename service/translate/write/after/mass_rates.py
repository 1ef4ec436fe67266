"""Masses that were weighed: items of the gear list, and night sets by their bag."""

from __future__ import annotations

import math
from typing import Any

from service.translate.read import quantities
from service.translate.write.after.fuel_rates import sets_of
from service.translate.write.after.rates import Rates, upwards
from solver.problem import NightSet

_ON_A_SCALE = "one weighing"


def mass_rates(rates: Rates) -> None:
    """Add the mass of each weighed unit that a request gives in one place."""
    request = rates.report.line.request
    items = {item["item_id"]: n for n, item in enumerate(request.get("gear", ()))}
    sets = _sets(rates)
    heaviest: dict[int, tuple[float, float]] = {}
    for one in rates.report.asked.weighed:
        weighed_g = quantities.grams(one.mass)
        number = items.get(one.unit_id)
        if number is not None and _is_whole(request["gear"][number]):
            planned = request["gear"][number]["mass"]
            _add(rates, f"/gear/{number}/mass", weighed_g, quantities.grams(planned))
        elif one.unit_id in sets:
            number, its_set = sets[one.unit_id]
            if math.ceil(weighed_g / its_set.sets_per_bag) < its_set.packaging_g + its_set.lunch_g:
                rates.not_given.append(
                    f"The mass of {one.unit_id}: packaging and lunch of its sets are more. Weigh "
                    "those, too."
                )
                continue
            known = heaviest.get(number, (0.0, 0.0))
            heaviest[number] = max(known, (weighed_g / its_set.sets_per_bag, its_set.gross_g))
        else:
            rates.not_given.append(
                f"The mass of {one.unit_id}: a request gives it in parts, in a kit, or not at "
                "all. Change it there by hand."
            )
    for number, (weighed_g, planned_g) in heaviest.items():
        _add(rates, f"/menu/night_sets/{number}/mass", weighed_g, planned_g)


def _is_whole(item: dict[str, Any]) -> bool:
    """Whether the list gives the mass of an item in one figure."""
    return item.get("mass") is not None and not item.get("parts")


def _sets(rates: Rates) -> dict[str, tuple[int, NightSet]]:
    """Bags by their unit id: the number of their set in the menu, and the set."""
    menu = rates.report.line.request.get("menu") or {"night_sets": []}
    return {
        one.unit_id: (number, one)
        for number, wire in enumerate(menu["night_sets"])
        for one in sets_of(rates, wire)
    }


def _add(rates: Rates, pointer: str, weighed_g: float, planned_g: float) -> None:
    rates.add(
        pointer,
        upwards(weighed_g, "g"),
        upwards(planned_g, "g"),
        weighed_g / planned_g,
        based_on=_ON_A_SCALE,
        says_little=False,
        why="As weighed, rounded up to a whole gram.",
    )
