"""Masses that were weighed: items of the gear list, and night sets by their bag."""

from __future__ import annotations

from service.translate.read import quantities
from service.translate.write.after.fuel_rates import sets_of
from service.translate.write.after.rates import Rates, upwards

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
        if number is not None and request["gear"][number].get("mass") is not None:
            planned = request["gear"][number]["mass"]
            _add(rates, f"/gear/{number}/mass", weighed_g, quantities.grams(planned))
        elif one.unit_id in sets:
            number, per_bag, planned_g = sets[one.unit_id]
            known = heaviest.get(number, (0.0, 0.0))
            heaviest[number] = max(known, (weighed_g / per_bag, planned_g))
        else:
            rates.not_given.append(
                f"The mass of {one.unit_id}: a request gives it in parts, in a kit, or not at "
                "all. Change it there by hand."
            )
    for number, (weighed_g, planned_g) in heaviest.items():
        _add(rates, f"/menu/night_sets/{number}/mass", weighed_g, planned_g)


def _sets(rates: Rates) -> dict[str, tuple[int, int, float]]:
    """Bags by their unit id: the number of their set in the menu, sets in a bag, planned mass."""
    menu = rates.report.line.request.get("menu") or {"night_sets": []}
    return {
        one.unit_id: (number, one.sets_per_bag, float(one.gross_g))
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
