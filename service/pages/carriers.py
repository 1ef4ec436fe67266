"""Sheets about who carries: trips of each person, keepers, the index of bags, the descent."""

from __future__ import annotations

from collections.abc import Iterator

from service.pages.blocks import Block, Section, table
from service.pages.facts import Json, PlanFacts, besides_own_kit, units_of

_OF_ALL = ("trash/", "waste/")


def person_pages(facts: PlanFacts) -> list[Section]:
    """One section for each person: all trips with their loads."""
    return [
        Section(f"person-{index}", facts.person(person), (_trips(facts, person),))
        for index, person in enumerate(facts.people, 1)
    ]


def _trips(facts: PlanFacts, person: str) -> Block:
    unit = facts.write.mass_unit
    rows = [
        (
            str(trip["day"]),
            facts.way(trip),
            facts.write.mass(load["pack_kg"]),
            facts.write.mass(load["sled_kg"]) if load["sled_id"] else "–",
            f"{100 * load['load_fraction']:.0f} %",
            besides_own_kit(units_of(load), person),
        )
        for trip, load in facts.loads_of(person)
    ]
    columns = ("#Day", "Way", f"#Pack {unit}", f"#Sled {unit}", "#Of cap", "What")
    return table("All trips", (*columns, "_Weighed"), rows)


def keepers(facts: PlanFacts) -> Section:
    """Who has each shared item on which days."""
    rows = [
        (name, each, carriers)
        for unit_id, name, each, carriers in _carried(facts)
        if "/" not in unit_id
    ]
    columns = ("Item", f"#Each {facts.write.mass_unit}", "Who carries it, by day", "_Checked")
    return Section("keepers", "Keepers of shared items", (table("", columns, rows),))


def bag_index(facts: PlanFacts) -> Section:
    """Every bag of food and every container, with who carries it when."""
    own = tuple(f"{person}/" for person in facts.people)
    rows = [
        (unit_id, name, each, carriers)
        for unit_id, name, each, carriers in _carried(facts)
        if "/" in unit_id and not unit_id.startswith((*own, *_OF_ALL))
    ]
    columns = ("Bag", "What", f"#Each {facts.write.mass_unit}", "Who carries it, by day", "_Packed")
    return Section("bags", "Index of bags and containers", (table("", columns, rows),))


def _carried(facts: PlanFacts) -> Iterator[tuple[str, str, str, str]]:
    units: dict[str, tuple[Json, list[str]]] = {}
    for trip in facts.plan["trips"]:
        for load in trip["loads"]:
            for unit in units_of(load):
                _, carriers = units.setdefault(unit["unit_id"], (unit, []))
                many = f" ({unit['count']})" if unit["count"] > 1 else ""
                carriers.append(f"{trip['day']} {facts.person(load['person_id'])}{many}")
    for unit_id in sorted(units):
        unit, carriers = units[unit_id]
        named = unit["name"] or unit_id
        yield unit_id, named, facts.write.mass(unit["each_kg"], 2), ", ".join(carriers)


def descent(facts: PlanFacts) -> Section:
    """The loads homeward, with their share of the body where its mass is given."""
    rows = []
    for trip in facts.plan["trips"]:
        if trip["direction"] == "homeward":
            for load in trip["loads"]:
                body = facts.body_mass_kg(load["person_id"])
                share = "–" if body is None else f"{100 * load['pack_kg'] / body:.0f} %"
                sled = facts.write.mass(load["sled_kg"]) if load["sled_id"] else "–"
                cap = f"{100 * load['load_fraction']:.0f} %"
                who, pack = facts.person(load["person_id"]), facts.write.mass(load["pack_kg"])
                rows.append((str(trip["day"]), facts.way(trip), who, pack, share, sled, cap))
    unit = facts.write.mass_unit
    columns = ("#Day", "Way", "@Who", f"#Pack {unit}", "#Of the body", f"#Sled {unit}", "#Of cap")
    made = table("Loads homeward", (*columns, "_Weighed"), rows)
    return Section("descent", "Descent", (made,))
