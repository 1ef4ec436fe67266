"""The gear of a request as a list that the service reads again: one line an item or a part."""

from collections.abc import Iterator
from decimal import ROUND_CEILING, Decimal
from typing import Any

from service.reports.tables import Cell, Table, table_of
from service.translate.read.quantities import FACTORS, exactly

_DECIMALS = Decimal("0.000001")
_TEXTS = (
    "item_id",
    "name",
    "needed",
    "from_place",
    "up_to",
    "purpose",
    "communicator_kind",
    "apart",
    "rope_team",
)
_FLAGS = ("go_ahead", "may_follow", "outside")
COLUMNS = (
    "item_id",
    "name",
    "owner",
    "count",
    "mass_g",
    "volume_ml",
    "needed",
    "from_place",
    "up_to",
    "go_ahead",
    "may_follow",
    "in_use_on",
    "outside",
    "purpose",
    "shelter_places",
    "communicator_kind",
    "capacity_ml",
    "needed_below_degc",
    "spoils_below_degc",
    "length_cm",
    "apart",
    "rope_team",
    "left_at",
    "part_of",
)
WEIGHED_COLUMN = "weighed_mass_g"


def gear_list_table(request: dict[str, Any]) -> Table:
    """The shared gear, the kits and what people have besides, of a request as it was sent.

    A kit is listed under its own id as owner, what a person has besides under the person's.
    """
    rows = [row for item in request.get("gear", ()) for row in _rows(item, owner=None)]
    for kit_id, items in request.get("personal_kits", {}).items():
        rows += [row for item in items for row in _rows(item, owner=kit_id)]
    for person in request["roster"]:
        kit = person.get("personal_kit")
        own = [*(kit if isinstance(kit, list) else ()), *person.get("extra_items", ())]
        rows += [row for item in own for row in _rows(item, owner=person["person_id"])]
    return table_of(COLUMNS, rows)


def weigh_in_table(request: dict[str, Any]) -> Table:
    """The gear list with a blank last column for what the scales say [g]."""
    return gear_list_table(request).with_last(WEIGHED_COLUMN, None)


def _rows(item: dict[str, Any], *, owner: str | None) -> Iterator[dict[str, Cell]]:
    blank: dict[str, Cell] = dict.fromkeys(COLUMNS)
    yield {
        **blank,
        **{name: item.get(name) for name in _TEXTS},
        **{name: "yes" for name in _FLAGS if item.get(name)},
        "owner": owner,
        "count": item.get("count", 1),
        "mass_g": _number(item.get("mass"), "g"),
        "volume_ml": _number(item.get("volume"), "mL"),
        "in_use_on": "; ".join(item.get("in_use_on", ())) or None,
        "shelter_places": item.get("shelter_places"),
        "capacity_ml": _number(item.get("capacity"), "mL"),
        "needed_below_degc": _number(item.get("needed_below"), "degC"),
        "spoils_below_degc": _number(item.get("spoils_below"), "degC"),
        "length_cm": _number(item.get("length"), "cm"),
        "left_at": "; ".join(f"{p}: {n}" for p, n in item.get("left_at", {}).items()) or None,
    }
    for part in item.get("parts", ()):
        yield {
            **blank,
            "item_id": part["part_id"],
            "name": part.get("name"),
            "mass_g": _number(part.get("mass"), "g"),
            "volume_ml": _number(part.get("volume"), "mL"),
            "part_of": item["item_id"],
        }


def _number(text: str | None, unit: str) -> float | int | None:
    """A quantity in a unit, to the sixth decimal, rounded up."""
    if text is None:
        return None
    in_base = exactly(text)
    number = in_base if unit == "degC" else in_base / FACTORS[unit]
    rounded = number.quantize(_DECIMALS, ROUND_CEILING)
    return int(rounded) if rounded == rounded.to_integral_value() else float(rounded)
